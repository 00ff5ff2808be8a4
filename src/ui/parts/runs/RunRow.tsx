/** One run in the list: what, when, how far, and what can be done with it. */

import { isBeside } from '../../../app/runs/besideRun.ts'
import { flownWords, isOver, missWords, reachWords } from '../../../app/runs/runsView.ts'
import { lengthWords } from '../../../kernel/run/core/clockTime.ts'
import type { RunSummary } from '../../../kernel/run/core/summary.ts'
import { useActions } from '../../useApp.ts'

export function RunRow({ run }: { readonly run: RunSummary }) {
  const { runId, pack, startedAt, account } = run
  const actions = useActions()
  const when = new Date(startedAt).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' })
  const name = `${pack}, ${when}`
  return (
    <li class="run-row">
      <div>
        <h3>
          {pack} <span class="soft when">{when}</span>
        </h3>
        <p class="small soft">
          <span class="cap">{flownWords(run)}</span>
          {isBeside(runId) &&
            '; came in from a file, and differs from the run that was here: not counted in the progress'}
        </p>
        <p class="small">
          {account ? (
            <>
              {reachWords(run)}; <strong>{missWords(run)}</strong>; lasted {lengthWords(account.durationMs)}
              {!isOver(run) && ', not ended'}
            </>
          ) : (
            <span class="soft">Being read</span>
          )}
        </p>
        {account?.wrong !== undefined && <p class="small">Not read to its end: {account.wrong}</p>}
      </div>
      <div class="row">
        <button type="button" aria-label={`Debrief of ${name}`} onClick={() => void actions.openRun(runId)}>
          Debrief
        </button>
        <button type="button" aria-label={`Grade ${name}`} onClick={() => void actions.openGrading(runId)}>
          Grade
        </button>
        <button type="button" aria-label={`Delete ${name}`} onClick={() => void actions.deleteRun(runId)}>
          Delete
        </button>
      </div>
    </li>
  )
}
