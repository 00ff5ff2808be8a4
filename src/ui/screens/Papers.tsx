/** All papers of this departure: read, laid side by side, printed, put away. */

import { hasRunOn } from '../../app/selectors.ts'
import { PapersWindow } from '../parts/papers/PapersWindow.tsx'
import { OpenPapers, Pile } from '../parts/papers/Pile.tsx'
import { Printing } from '../parts/papers/Printing.tsx'
import { ScratchPad } from '../parts/papers/ScratchPad.tsx'
import { usePapers } from '../parts/papers/usePapers.ts'
import { useActions, useApp } from '../useApp.ts'

export function Papers() {
  const { pile, open, away } = usePapers()
  const isRunning = useApp(hasRunOn)
  const hasSheet = useApp((state) => state.run !== undefined || state.sheets.length > 0)
  const actions = useActions()
  return (
    <main class="page stack wide papers-screen">
      <div class="stack no-print">
        <h1 tabIndex={-1}>Papers</h1>
        <p class="soft">
          What a crew reads in the cockpit. Reading is no mark.{' '}
          {!hasSheet && 'Lay a sheet on the table from the figures, and its papers are here.'}
        </p>
        <Pile pile={pile} />
        <div class="row">
          <Printing hasOpen={open.length > 0} />
          <PapersWindow />
        </div>
      </div>
      <OpenPapers open={open} isRunning={isRunning} />
      {away.length > 0 && (
        <section class="no-print" aria-labelledby="put-away">
          <h2 id="put-away">Put away</h2>
          <ul class="row">
            {away.map(({ id, paper, which }) => (
              <li key={id}>
                <button type="button" onClick={() => actions.takeOutPaper(id)}>
                  Take out {paper.title} {which}
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
      {isRunning && <ScratchPad />}
    </main>
  )
}
