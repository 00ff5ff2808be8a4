/** What lies on the table: a button for each paper that opens it or closes it, and those that lie open, side by side. */

import type { PapersView, PaperView } from '../../../app/papers/papersView.ts'
import { useActions } from '../../useApp.ts'
import { PaperSheet } from './PaperSheet.tsx'

export function Pile({ pile }: Pick<PapersView, 'pile'>) {
  const actions = useActions()
  return (
    <fieldset class="pile">
      <legend class="hidden-label">Papers on the table</legend>
      {pile.map(({ id, paper, which, isOpen }) => (
        <button key={id} type="button" aria-pressed={isOpen} onClick={() => actions.turnPaper(id)}>
          <span class="cap">{paper.title}</span>
          {which && <span class="small"> {which}</span>}
        </button>
      ))}
    </fieldset>
  )
}

/** `isRunning`: only in a run is there a pile to keep tidy. */
export function OpenPapers({ open, isRunning }: { readonly open: readonly PaperView[]; readonly isRunning: boolean }) {
  const actions = useActions()
  if (open.length === 0) return null
  return (
    <div class="open-papers">
      {open.map((view) => (
        <div key={view.id} class="open-paper">
          <div class="row">
            <button type="button" class="plain" onClick={() => actions.turnPaper(view.id)}>
              Close <span class="hidden-label">{`${view.paper.title} ${view.which}`}</span>
            </button>
            {isRunning && view.number !== undefined && (
              <button type="button" class="plain" onClick={() => actions.putAwayPaper(view.id)}>
                Put away <span class="hidden-label">{`${view.paper.title} ${view.which}`}</span>
              </button>
            )}
          </div>
          <PaperSheet view={view} />
        </div>
      ))}
    </div>
  )
}
