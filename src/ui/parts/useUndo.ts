/** Undo for the draft: one step for each field, however many keys it took. */

import { useEffect, useRef, useState } from 'preact/hooks'
import type { Inputs } from '../../kernel/figures/model.ts'

/** More than anyone goes back by hand. */
const MOST = 50

/** The undoing of the last change, or undefined where there is none. */
export function useUndo(draft: Inputs, restore: (draft: Inputs) => void): (() => void) | undefined {
  const past = useRef<{ readonly draft: Inputs; readonly changed: string }[]>([])
  const present = useRef(draft)
  const [count, setCount] = useState(0)
  useEffect(() => {
    if (present.current === draft) return
    const changed = changedPaths(present.current, draft)
    // Keys in one field are one step; a load sheet changes many fields and is a step of its own.
    if (changed.length !== 1 || past.current.at(-1)?.changed !== changed[0]) {
      past.current = [...past.current, { draft: present.current, changed: changed.join() }].slice(-MOST)
    }
    present.current = draft
    setCount(past.current.length)
  }, [draft])
  if (count === 0) return undefined
  return () => {
    const step = past.current.pop()
    if (!step) return
    present.current = step.draft
    setCount(past.current.length)
    restore(step.draft)
  }
}

/** "values.blockFuel", for everything in which two drafts differ. */
export function changedPaths(before: object, after: object, path = ''): string[] {
  const names = new Set([...Object.keys(before), ...Object.keys(after)])
  return [...names].flatMap((name) => {
    const [old, now] = [(before as Record<string, unknown>)[name], (after as Record<string, unknown>)[name]]
    if (old === now) return []
    const isDeep = typeof (old ?? now) === 'object' && typeof (now ?? old) === 'object'
    return isDeep ? changedPaths(old ?? {}, now ?? {}, `${path}${name}.`) : [`${path}${name}`]
  })
}
