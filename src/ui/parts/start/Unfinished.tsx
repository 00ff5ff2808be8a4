/** A run that was left in the middle, that is under way or that has stopped: go on, or begin afresh. */

import { hasRunOn } from '../../../app/selectors.ts'
import { useActions, useApp } from '../../useApp.ts'
import { EndRun } from '../shell/EndRun.tsx'
import { Blocked } from './Blocked.tsx'

export function Unfinished() {
  const unfinished = useApp((state) => state.unfinished)
  const run = useApp((state) => state.run)
  const blocked = useApp((state) => state.blocked)
  const isOn = useApp(hasRunOn)
  const actions = useActions()
  if (blocked) return <Blocked blocked={blocked} />
  if (!unfinished && !isOn) return null
  const isStopped = !unfinished && run?.status === 'stopped'
  const goOn = () => {
    if (unfinished) void actions.resumeRun(unfinished.runId)
    else if (isStopped) void actions.resumeRun(run.runId)
    else actions.show('run')
  }
  const title = unfinished ? 'You have an unfinished run' : isStopped ? 'The run has stopped' : 'A run is under way'
  const begun =
    unfinished && new Date(unfinished.startedAt).toLocaleString('en-GB', { dateStyle: 'long', timeStyle: 'short' })
  return (
    <section class="card stack" aria-labelledby="unfinished">
      <h2 id="unfinished">{title}</h2>
      {unfinished && (
        <p>
          {unfinished.pack}, begun {begun}. It resumes at the item you left.
        </p>
      )}
      {isStopped && <p>{run.stoppedBecause} It resumes at the item you left.</p>}
      <div class="row">
        <button type="button" class="first" onClick={goOn}>
          Resume the run
        </button>
        <EndRun />
      </div>
    </section>
  )
}
