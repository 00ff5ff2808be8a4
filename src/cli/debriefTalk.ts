/** Exchanges and briefings in the account, as lines of text. */

import { clockTime } from '../kernel/run/core/clockTime.ts'
import { listed } from '../kernel/run/core/phrases.ts'
import {
  type DebriefBriefing,
  missesInBriefing,
  refusedWords,
  rightWords,
  topicNotes,
} from '../kernel/run/debrief/debriefBriefing.ts'
import type { DebriefExchange, DebriefTurn } from '../kernel/run/debrief/debriefTalk.ts'

const SLIPS = {
  acceptsWrong: 'the controller called a wrong read-back correct',
  saysAnother: 'the controller said another value behind a right read-back',
} as const

export function exchangeLines({ name, station, done, turns }: DebriefExchange): string[] {
  return ['', `${name} (${station}): ${done ? 'done' : 'not done'}`, ...turns.flatMap(turnLines)]
}

function turnLines(turn: DebriefTurn): string[] {
  const { label, done, tries, misses, asked, unsigned, acknowledged, shown, insisted, waived, slip, byKey } = turn
  const notes = [
    misses > 0 ? `${misses} missed` : '',
    asked > 0 ? `said again on request ${asked} times` : '',
    unsigned > 0 ? `${unsigned} without call sign` : '',
    acknowledged > 0 ? `${acknowledged} acknowledged, not read back` : '',
    shown ? 'words shown' : '',
    byKey ? 'by key' : '',
    insisted === undefined ? '' : `kept to "${insisted}" against the figure`,
    waived.length > 0 ? `insisted without ${listed(waived)}` : '',
    slip ? `${SLIPS[slip.kind]}: ${slip.noticed ? 'noticed' : 'not noticed'}` : '',
  ].filter((note) => note)
  const head = `  ${label}: ${done ? 'done' : 'open'}${notes.length > 0 ? ` (${notes.join(', ')})` : ''}`
  const said = tries.map(({ t, text, part, judgement, tooEarly }) => {
    const wrong = judgement.parts.filter(({ state }) => state === 'wrong').map(({ name }) => name)
    const what = part === 'call' ? 'call' : 'read-back'
    return `    ${clockTime(t)} ${what} "${text}" ${tooEarly === undefined ? judgement.verdict : `too early (${tooEarly})`}${wrong.length > 0 ? `: ${wrong.join(', ')}` : ''}`
  })
  return [head, ...said]
}

export function briefingLines(briefing: DebriefBriefing): string[] {
  const { name, done, topics } = briefing
  const lines = topics.flatMap((topic) => {
    const { label, state, wrong } = topic
    const words = { ok: 'briefed', wrong: 'briefed wrong', open: 'not briefed' }[state]
    const notes = topicNotes(topic)
    return [
      `  ${label}: ${words}${notes.length > 0 ? ` (${notes.join(', ')})` : ''}`,
      ...wrong.map(({ t, said = '', right }) => `    ${clockTime(t)} "${said}" ${rightWords(right)}`),
    ]
  })
  const missed = missesInBriefing(briefing)
  const head = [done ? 'done' : 'not done', missed > 0 ? `${missed} missed` : '', refusedWords(briefing)]
  return ['', `${name}: ${head.filter((words) => words).join(', ')}`, ...lines]
}
