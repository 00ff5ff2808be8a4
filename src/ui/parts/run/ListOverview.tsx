/** All lists, exchanges and briefings of the procedure: which are complete, which are open and on what, which were taken back. */

import type { ViewList } from '../../../app/view/overview.ts'
import { Mark, type MarkName } from '../shell/Mark.tsx'

const STATES: Readonly<Record<ViewList['state'], { readonly text: string; readonly mark: MarkName }>> = {
  ahead: { text: 'ahead', mark: 'ring' },
  open: { text: 'open', mark: 'half' },
  complete: { text: 'complete', mark: 'full' },
  revoked: { text: 'no longer complete', mark: 'back' },
}

export function ListOverview({ lists }: { readonly lists: readonly ViewList[] }) {
  return (
    <section aria-label="All lists">
      <h2>{lists.some(({ type }) => type !== 'list') ? 'Procedure' : 'Lists'}</h2>
      <ol class="thread">
        {lists.map(({ id, type, name, state, openItems, current }) => (
          <li key={id} aria-current={current ? 'step' : undefined}>
            <Mark name={type === 'list' || state !== 'ahead' ? STATES[state].mark : 'waves'} />
            <span class="cap">{name}</span>
            <span class="state">
              {type === 'list' ? '' : `${type}, `}
              {type !== 'list' && state === 'complete' ? 'done' : STATES[state].text}
              {openItems.length > 0 && `: ${openItems.join(', ')}`}
            </span>
          </li>
        ))}
      </ol>
    </section>
  )
}
