/** The topics of a briefing, ticked as they are named; one with a wrong value is to be said again. */

import type { ViewBriefing } from '../../../app/view/exchangeView.ts'
import { Mark, type MarkName } from '../shell/Mark.tsx'

type State = ViewBriefing['topics'][number]['state']
const STATES: Readonly<Record<State, { readonly text: string; readonly mark: MarkName }>> = {
  open: { text: '', mark: 'ring' },
  ok: { text: 'briefed', mark: 'full' },
  wrong: { text: 'wrong: say it again', mark: 'unequal' },
}

export function BriefingPanel({ briefing }: { readonly briefing: ViewBriefing }) {
  return (
    <ul class="elements" aria-label="Topics of the briefing">
      {briefing.topics.map(({ id, label, state }) => (
        <li key={id}>
          <Mark name={STATES[state].mark} /> <span class="cap">{label}</span>{' '}
          <span class="soft">{STATES[state].text}</span>
        </li>
      ))}
    </ul>
  )
}
