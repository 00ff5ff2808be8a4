/** A run that was left in the middle, or that is under way: go on, or begin afresh. */

import { useActions, useApp } from '../../useApp.ts'

export function Unfinished() {
  const unfinished = useApp((state) => state.unfinished)
  const run = useApp((state) => state.run)
  const actions = useActions()
  if (!unfinished && run?.status !== 'running') return null
  const goOn = () => (unfinished ? void actions.resumeRun(unfinished.runId) : actions.show('run'))
  const begun =
    unfinished && new Date(unfinished.startedAt).toLocaleString('en-GB', { dateStyle: 'long', timeStyle: 'short' })
  return (
    <section class="card stack" aria-labelledby="unfinished">
      <h2 id="unfinished">{unfinished ? 'A run was left in the middle' : 'A run is under way'}</h2>
      {unfinished && (
        <p>
          {unfinished.pack}, begun {begun}. It goes on at the item where it was.
        </p>
      )}
      <div class="row">
        <button type="button" class="first" onClick={goOn}>
          Go on with it
        </button>
        <button type="button" onClick={() => void actions.endRun()}>
          Begin afresh
        </button>
      </div>
    </section>
  )
}
