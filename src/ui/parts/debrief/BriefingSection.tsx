/** A briefing in the debrief: what was covered, what was said wrong, and what was left out until it was asked for. */

import type { DebriefBriefing } from '../../../kernel/run/debrief/debriefTalk.ts'
import { Mark, type MarkName } from '../shell/Mark.tsx'

type Topic = DebriefBriefing['topics'][number]
const STATES: Readonly<Record<Topic['state'], { readonly text: string; readonly mark: MarkName }>> = {
  ok: { text: 'briefed', mark: 'full' },
  wrong: { text: 'briefed with a wrong value', mark: 'unequal' },
  open: { text: 'not briefed', mark: 'ring' },
}

export function BriefingSection({ briefing }: { readonly briefing: DebriefBriefing }) {
  const { name, done, topics } = briefing
  return (
    <section aria-label={`Briefing ${name}`}>
      <h3 class="cap">{name}</h3>
      <p class="soft">{done ? 'complete' : 'not complete'}</p>
      <ul class="values">
        {topics.map((topic) => (
          <li key={topic.label} class="head-line">
            <span>
              <Mark name={STATES[topic.state].mark} /> <strong class="cap">{topic.label}</strong>
            </span>
            <span class="soft small">{notesOf(topic)}</span>
          </li>
        ))}
      </ul>
    </section>
  )
}

function notesOf({ state, misses, leftOut }: Topic): string {
  return [
    STATES[state].text,
    leftOut ? 'left out at first' : '',
    misses > 0 ? `wrong ${misses === 1 ? 'once' : `${misses} times`}` : '',
  ]
    .filter((note) => note)
    .join(', ')
}
