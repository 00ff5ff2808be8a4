/** One file as plain text with numbered lines, and beneath it what is wrong: a click on a problem puts the cursor there. */

import { useRef } from 'preact/hooks'
import { isError, type Place, type Problem } from '../../../kernel/problem.ts'
import { Mark } from '../shell/Mark.tsx'

export interface PackTextProps {
  readonly label: string
  readonly value: string
  /** Of this file. */
  readonly problems: readonly Problem[]
  readonly onChange: (value: string) => void
}

/** Lines that stay above the one that is gone to. */
const ABOVE = 4

export function PackText({ label, value, problems, onChange }: PackTextProps) {
  const field = useRef<HTMLTextAreaElement>(null)
  const numbers = useRef<HTMLPreElement>(null)
  const lines = value.split('\n')

  function goTo({ line, column }: Place): void {
    const text = field.current
    if (!text) return
    const before = lines.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0)
    const offset = Math.min(before + column - 1, value.length)
    text.focus()
    text.setSelectionRange(offset, offset)
    text.scrollTop = (Math.max(0, line - 1 - ABOVE) * text.scrollHeight) / lines.length
  }

  return (
    <div class="pack-text">
      <div class="code-field">
        <pre ref={numbers} class="numbers" aria-hidden="true">
          {lines.map((_, index) => index + 1).join('\n')}
        </pre>
        <textarea
          ref={field}
          class="code"
          aria-label={label}
          wrap="off"
          spellcheck={false}
          autocomplete="off"
          autocapitalize="off"
          value={value}
          onInput={(event) => onChange(event.currentTarget.value)}
          onScroll={(event) => {
            if (numbers.current) numbers.current.scrollTop = event.currentTarget.scrollTop
          }}
        />
      </div>
      <section class="problems" aria-label={`Problems in ${label}`}>
        <p role="status" class="small soft">
          {problems.length === 0 ? 'Nothing to mend in this file.' : `To look at in this file: ${problems.length}`}
        </p>
        <ul>
          {problems.map((problem) => (
            <li key={`${problem.code} ${problem.message} ${problem.place?.line} ${problem.place?.column}`}>
              <button type="button" class="plain" onClick={() => problem.place && goTo(problem.place)}>
                <Mark name={isError(problem) ? 'unequal' : 'arrow'} />{' '}
                {problem.place && `Line ${problem.place.line}, column ${problem.place.column}: `}
                {problem.message}
              </button>
            </li>
          ))}
        </ul>
      </section>
    </div>
  )
}
