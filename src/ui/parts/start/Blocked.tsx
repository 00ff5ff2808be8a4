/** A run that can be neither gone on with nor ended here: why, and what can be done. */

import type { RunBlocked } from '../../../app/store.ts'
import { useActions } from '../../useApp.ts'
import { saveText } from '../shell/saveText.ts'

const TITLES: Readonly<Record<RunBlocked['because'], string>> = {
  unreadable: 'This run cannot go on',
  elsewhere: 'Another tab has this run',
  ended: 'This run has ended',
}

export function Blocked({ blocked }: { readonly blocked: RunBlocked }) {
  const { because } = blocked
  return (
    <section class="card stack" aria-labelledby="blocked">
      <h2 id="blocked">{TITLES[because]}</h2>
      {because === 'unreadable' && <Unreadable blocked={blocked} />}
      {because === 'elsewhere' && <HeldElsewhere />}
      {because === 'ended' && <EndedElsewhere />}
    </section>
  )
}

function Unreadable({ blocked: { runId, message } }: { readonly blocked: RunBlocked }) {
  const actions = useActions()
  const save = async () => saveText(`${runId}.jsonl`, await actions.exportLog(runId))
  return (
    <>
      <p role="alert">Its log cannot be read: {message}. Save the log as a file, then put the run away.</p>
      <div class="row">
        <button type="button" class="first" onClick={() => void save()}>
          Save the log as a file
        </button>
        <button type="button" onClick={() => void actions.putAwayRun()}>
          Put it away
        </button>
      </div>
    </>
  )
}

function HeldElsewhere() {
  const actions = useActions()
  return (
    <>
      <p role="alert">It was not ended: another tab is flying it. End it there, or take it over here.</p>
      <div class="row">
        <button type="button" class="first" onClick={() => void actions.takeOver()}>
          Take over here
        </button>
        <button type="button" onClick={() => void actions.endRun()}>
          Begin afresh
        </button>
      </div>
    </>
  )
}

function EndedElsewhere() {
  const actions = useActions()
  return (
    <>
      <p role="alert">It was ended in another tab since.</p>
      <div>
        <button type="button" class="first" onClick={() => void actions.endRun()}>
          Begin afresh
        </button>
      </div>
    </>
  )
}
