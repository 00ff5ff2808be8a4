/** Ends the run that is on, or was left in the middle. It is asked first, since a run that has ended cannot be resumed. */

import { useActions } from '../../useApp.ts'
import { AskFirst } from './AskFirst.tsx'

/** `onEnded`: where to go from there; to the start screen where nothing is said. */
export function EndRun({ onEnded }: { readonly onEnded?: () => void | Promise<void> }) {
  const { endRun, show } = useActions()
  const end = async () => {
    // Why it could not be ended is told on the start screen.
    if (await endRun()) await onEnded?.()
    else show('start')
  }
  return (
    <AskFirst
      label="End the run"
      warning="It cannot be resumed afterwards. Its debrief stays under Runs."
      yes="End it now"
      onYes={end}
    />
  )
}
