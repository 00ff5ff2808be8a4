/** A briefing in the debrief: what was covered, what was said wrong, and what was left out until it was asked for. */

import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import {
  type DebriefBriefing,
  type DebriefTopic,
  missesInBriefing,
  refusedWords,
  rightWords,
  topicNotes,
} from '../../../kernel/run/debrief/debriefBriefing.ts'
import { Mark, type MarkName } from '../shell/Mark.tsx'

const STATES: Readonly<Record<DebriefTopic['state'], { readonly text: string; readonly mark: MarkName }>> = {
  ok: { text: 'briefed', mark: 'full' },
  wrong: { text: 'briefed with a wrong value', mark: 'unequal' },
  open: { text: 'not briefed', mark: 'ring' },
}

export function BriefingSection({ briefing }: { readonly briefing: DebriefBriefing }) {
  const { name, done, topics } = briefing
  const missed = missesInBriefing(briefing)
  const head = [done ? 'complete' : 'not complete', missed > 0 ? `${missed} missed` : '', refusedWords(briefing)]
  return (
    <section aria-label={`Briefing ${name}`}>
      <h3 class="cap">{name}</h3>
      <p class="soft">{head.filter((words) => words).join(', ')}</p>
      <ul class="values">
        {topics.map((topic) => (
          <li key={topic.label}>
            <div class="head-line">
              <span>
                <Mark name={STATES[topic.state].mark} /> <strong class="cap">{topic.label}</strong>
              </span>
              <span class="soft small">{[STATES[topic.state].text, ...topicNotes(topic)].join(', ')}</span>
            </div>
            {topic.wrong.map(({ t, said, right }) => (
              <div key={t}>
                {clockTime(t)} {said !== undefined && `“${said}”`} {rightWords(right)}
              </div>
            ))}
          </li>
        ))}
      </ul>
    </section>
  )
}
