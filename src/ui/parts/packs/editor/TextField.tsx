/** The text itself: a plain field at once, and the editor as soon as it is loaded, where the browser can have it. */

import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks'
import type { CodeField, CodeFieldParts } from './codeField.ts'
import type { Held, TextFieldProps } from './fieldParts.ts'
import { PlainField } from './PlainField.tsx'

type Make = (host: HTMLElement, parts: CodeFieldParts) => CodeField

let loaded: Make | undefined

async function load(): Promise<Make | undefined> {
  // Asked before loading: only some browsers can have it.
  if (!('adoptedStyleSheets' in Document.prototype)) return undefined
  loaded ??= (await import('./codeField.ts')).createCodeField
  return loaded
}

export function TextField(props: TextFieldProps) {
  const [make, setMake] = useState<Make | undefined>(() => loaded)
  /** The cursor of the plain field while it has the focus. */
  const cursor = useRef<number | undefined>(undefined)
  useEffect(() => {
    // Without it, offline for example, the plain field stays.
    load().then(
      (made) => setMake(() => made),
      () => undefined,
    )
  }, [])
  return make ? <CodeFieldHost {...props} make={make} cursor={cursor} /> : <PlainField {...props} cursor={cursor} />
}

interface CodeFieldHostProps extends TextFieldProps {
  readonly make: Make
  readonly cursor: Held<number | undefined>
}

function CodeFieldHost({ make, cursor, places, ...props }: CodeFieldHostProps) {
  const host = useRef<HTMLDivElement>(null)
  const field = useRef<CodeField | undefined>(undefined)
  const latest = useRef(props)
  latest.current = props
  useLayoutEffect(() => {
    if (!host.current) return
    const { pack, label, value } = latest.current
    const made = make(host.current, {
      ...{ pack, label },
      value,
      around: { file: label, files: () => latest.current.files },
      onChange: (next) => latest.current.onChange(next),
      onCursor: (offset) => latest.current.onCursor?.(offset),
    })
    field.current = made
    places.current = made
    if (cursor.current !== undefined) made.focusAt(cursor.current)
    return () => made.destroy()
  }, [make, cursor, places])
  useLayoutEffect(() => field.current?.setValue(props.value), [props.value])
  useEffect(() => field.current?.setProblems(props.problems), [props.problems])
  return <div ref={host} class="code-field rich" />
}
