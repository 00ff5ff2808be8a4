/** A button for what does not come back: it is asked first. */

import { useEffect, useRef, useState } from 'preact/hooks'

interface Props {
  readonly label: string
  /** What is lost, and what stays. */
  readonly warning: string
  readonly yes: string
  readonly onYes: () => void | Promise<void>
}

export function AskFirst({ label, warning, yes, onYes }: Props) {
  const [isAsked, setAsked] = useState(false)
  const keep = useRef<HTMLButtonElement>(null)
  // The button that was pressed is gone.
  useEffect(() => keep.current?.focus({ preventScroll: true }), [isAsked])
  if (!isAsked) {
    return (
      <button type="button" onClick={() => setAsked(true)}>
        {label}
      </button>
    )
  }
  return (
    <fieldset class="row">
      <legend class="hidden-label">{label}</legend>
      <span role="alert">{warning}</span>
      <button type="button" onClick={() => void onYes()}>
        {yes}
      </button>
      <button ref={keep} type="button" onClick={() => setAsked(false)}>
        Keep it
      </button>
    </fieldset>
  )
}
