/** A run that can be neither gone on with nor ended here: why, and what can be done. */

import type { RunBlocked } from '../../../app/store.ts'
import { useActions } from '../../useApp.ts'
import { saveFile } from '../shell/saveFile.ts'

export function Blocked({ blocked: { because, runId, message } }: { readonly blocked: RunBlocked }) {
  const { exportLog, putAwayRun, takeOver, endRun } = useActions()
  const save = async () => saveFile(`${runId}.jsonl`, await exportLog(runId))
  const { title, what, choices } = {
    unreadable: {
      title: 'This run cannot be resumed',
      what: `Its log cannot be read: ${message}. Save the log as a file, then put the run away.`,
      choices: { 'Save the log as a file': save, 'Put it away': putAwayRun },
    },
    elsewhere: {
      title: 'This run is open in another tab',
      what: 'It was not ended: another tab is using it. End it there, or take it over here.',
      choices: { 'Take over here': takeOver, 'Start over': endRun },
    },
    ended: {
      title: 'This run has ended',
      what: 'It was ended in another tab.',
      choices: { 'Start over': endRun },
    },
  }[because]
  return (
    <section class="card stack" aria-labelledby="blocked">
      <h2 id="blocked">{title}</h2>
      <p role="alert">{what}</p>
      <div class="row">
        {Object.entries(choices).map(([label, choose], index) => (
          <button type="button" key={label} class={index === 0 ? 'first' : ''} onClick={() => void choose()}>
            {label}
          </button>
        ))}
      </div>
    </section>
  )
}
