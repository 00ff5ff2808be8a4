/** The text in a plain field with numbered lines: until the editor is loaded, and where a browser cannot have it. */

import { useEffect, useRef } from 'preact/hooks'
import type { Held, TextFieldProps } from './fieldParts.ts'

/** Lines that stay above the one that is gone to. */
const ABOVE = 4

interface PlainFieldProps extends TextFieldProps {
  readonly cursor: Held<number | undefined>
}

export function PlainField({ label, value, onChange, onCursor, places, cursor }: PlainFieldProps) {
  const field = useRef<HTMLTextAreaElement>(null)
  const numbers = useRef<HTMLPreElement>(null)
  const lines = value.split('\n')
  useEffect(() => {
    places.current = {
      goTo({ line, column }) {
        const text = field.current
        if (!text) return
        const all = text.value.split('\n')
        const before = all.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0)
        const offset = Math.min(before + column - 1, text.value.length)
        text.focus()
        text.setSelectionRange(offset, offset)
        text.scrollTop = (Math.max(0, line - 1 - ABOVE) * text.scrollHeight) / all.length
      },
      show(offset) {
        const text = field.current
        if (!text) return
        text.setSelectionRange(offset, offset)
        const above = text.value.slice(0, offset).split('\n').length - 1
        text.scrollTop = (Math.max(0, above - ABOVE) * text.scrollHeight) / text.value.split('\n').length
      },
    }
  }, [places])
  const moved = (text: HTMLTextAreaElement) => {
    cursor.current = text.selectionStart
    onCursor?.(text.selectionStart)
  }
  return (
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
        onInput={(event) => {
          onChange(event.currentTarget.value)
          moved(event.currentTarget)
        }}
        onSelect={(event) => moved(event.currentTarget)}
        onBlur={() => {
          cursor.current = undefined
        }}
        onScroll={(event) => {
          if (numbers.current) numbers.current.scrollTop = event.currentTarget.scrollTop
        }}
      />
    </div>
  )
}
