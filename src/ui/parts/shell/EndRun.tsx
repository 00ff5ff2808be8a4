/** Ends the run that is on, or was left in the middle. It is asked first, since a run that has ended cannot be resumed. */

import { useEffect, useRef, useState } from 'preact/hooks'
import { useActions } from '../../useApp.ts'

/** `onEnded`: where to go from there; to the start screen where nothing is said. */
export function EndRun({ onEnded }: { readonly onEnded?: () => void | Promise<void> }) {
  const { endRun, show } = useActions()
  const [isAsked, setAsked] = useState(false)
  const keep = useRef<HTMLButtonElement>(null)
  // The button that was pressed is gone.
  useEffect(() => keep.current?.focus({ preventScroll: true }), [isAsked])
  if (!isAsked) {
    return (
      <button type="button" onClick={() => setAsked(true)}>
        End the run
      </button>
    )
  }
  const end = async () => {
    // Why it could not be ended is told on the start screen.
    if (await endRun()) await onEnded?.()
    else show('start')
  }
  return (
    <fieldset class="row">
      <legend class="hidden-label">End the run</legend>
      <span role="alert">It cannot be resumed afterwards. Its debrief stays under Runs.</span>
      <button type="button" onClick={() => void end()}>
        End it now
      </button>
      <button ref={keep} type="button" onClick={() => setAsked(false)}>
        Keep it
      </button>
    </fieldset>
  )
}
