/** One labelled field for a number or a text, with its unit, its range and what is wrong with what was typed. */

import { useId, useLayoutEffect, useState } from 'preact/hooks'
import type { Problem } from '../../../kernel/problem.ts'

export interface FieldProps {
  readonly label: string
  readonly unit?: string
  /** "normally 1,500 to 6,780 kg". */
  readonly range?: string
  readonly required?: boolean
  readonly isText?: boolean
  readonly entered: string
  readonly placeholder?: string
  readonly problems?: readonly Problem[]
  readonly type: (text: string) => void
}

export function Field(props: FieldProps) {
  const { label, unit, range, required = true, isText = false, entered, placeholder, problems = [], type } = props
  const id = useId()
  const [text, setText] = useState(entered)
  // What was typed stays as typed ("5." on the way to "5.2"); only another value from outside replaces it.
  useLayoutEffect(() => {
    setText((typed) => (isSame(typed, entered) ? typed : entered))
  }, [entered])
  const isWrong = problems.some((problem) => problem.severity === 'error')
  return (
    <div class="field">
      <label for={id} class="cap">
        {label} {!required && <span class="soft">(optional)</span>}
      </label>
      <div class="with-unit">
        <input
          id={id}
          value={text}
          placeholder={placeholder}
          inputMode={isText ? 'text' : 'decimal'}
          autocomplete="off"
          spellcheck={false}
          aria-invalid={isWrong}
          aria-describedby={`${id}-about`}
          onInput={({ currentTarget: { value } }) => {
            setText(value)
            type(value)
          }}
        />
        {unit && <span class="soft">{unit}</span>}
      </div>
      <div id={`${id}-about`} class="small">
        {problems.length > 0 ? (
          problems.map(({ message }) => (
            <p key={message} class="wrong-entry">
              {message}
            </p>
          ))
        ) : (
          <span class="soft">{range}</span>
        )}
      </div>
    </div>
  )
}

function isSame(typed: string, entered: string): boolean {
  // Text that is no number at all stays as it was typed.
  if (typed.trim() === entered || entered === String(Number.NaN)) return true
  return typed.trim() !== '' && entered !== '' && Number(typed.replaceAll(',', '')) === Number(entered)
}
