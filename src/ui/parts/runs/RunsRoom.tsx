/** How much room the runs take, and whether the browser may take it back. */

import type { Space } from '../../../app/runs/runsState.ts'
import { lettersIn, sizeWords } from '../../../app/runs/runsView.ts'
import { useActions, useApp } from '../../useApp.ts'

const KEPT: Readonly<Record<Space['kept'], string>> = {
  yes: 'The browser has promised to keep them: they go only if you delete them, or clear the site’s data.',
  no: 'The browser may delete them if the disk runs short, or if you have not been here for long.',
  refused:
    'The browser did not agree: it may still delete them if the disk runs short. Some agree once a site is bookmarked, installed or often used. Save an archive of what you would miss.',
  unknown: 'This browser does not say whether it keeps them. Save an archive of what you would miss.',
}

export function RunsRoom() {
  const list = useApp((state) => state.runs.list)
  const { room, kept } = useApp((state) => state.runs.space)
  const actions = useActions()
  return (
    <section class="stack" aria-labelledby="runs-room">
      <h2 id="runs-room">Room</h2>
      <p>
        The runs take about {sizeWords(lettersIn(list ?? []))}.{' '}
        {room &&
          `All that this site keeps, with its speech models, takes ${sizeWords(room.used)} of the ${sizeWords(room.most)} that the browser allows.`}
      </p>
      <p role="status">{KEPT[kept]}</p>
      {(kept === 'no' || kept === 'refused') && (
        <div>
          <button type="button" onClick={() => void actions.keepRuns()}>
            Ask the browser to keep them
          </button>
        </div>
      )}
    </section>
  )
}
