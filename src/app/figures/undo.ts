/** The draft's own past: one step for each field, however many keys it took. It lasts until the draft is entered or left. */

import type { Inputs } from '../../kernel/figures/model.ts'

/** The draft before a change. */
export interface PastDraft {
  readonly draft: Inputs
  /** Paths of what changed then. */
  readonly changed: string
}

/** More than anyone goes back by hand. */
const MOST = 50

/** Keys in one field are one step; a load sheet changes many fields and is a step of its own. */
export function pastAfter(past: readonly PastDraft[], before: Inputs, after: Inputs): readonly PastDraft[] {
  const paths = changedPaths(before, after)
  const changed = paths.join()
  if (paths.length === 0 || (paths.length === 1 && past.at(-1)?.changed === changed)) return past
  return [...past, { draft: before, changed }].slice(-MOST)
}

/** What came by voice stays, however far somebody goes back with what was typed. */
export function laidUnder(past: readonly PastDraft[], lay: (draft: Inputs) => Inputs): readonly PastDraft[] {
  return past.map(({ draft, changed }) => ({ draft: lay(draft), changed }))
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
