/** Briefings in the debrief: what was covered, what was said wrong, what was left out, and each end that was refused. */

import { capital } from '../../capital.ts'
import { ownOf } from '../../own.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { RunEvent } from '../core/events.ts'
import type { RunState } from '../core/state.ts'
import { openTopics, topicsOf, wrongTopicsIn } from '../talk/briefing.ts'
import { briefingsOf } from '../talk/talk.ts'
import { talksIn } from './debriefTalk.ts'
import { saying } from './debriefTry.ts'
import { rightValues } from './rightValues.ts'
import { add, type EndRefused, type Moment, type Tally, type WrongTopic } from './tally.ts'

export interface DebriefTopic {
  readonly label: string
  readonly state: 'ok' | 'wrong' | 'open'
  readonly wrong: readonly WrongTopic[]
  /** Not covered when the briefing was first called complete. */
  readonly leftOut: boolean
}

export interface DebriefBriefing {
  readonly id: string
  readonly name: string
  readonly done: boolean
  /** A list that comes after it was called, or all lists were complete at the end. */
  readonly passed: boolean
  readonly topics: readonly DebriefTopic[]
  readonly refused: readonly EndRefused[]
}

/** Topics with wrong values, and what was open where the same breath was to end the briefing. */
export function tellBriefed(tally: Tally, moment: Moment<'briefed'>): void {
  const { pack, event, before } = moment
  const { t, evidence } = event
  for (const topic of wrongTopicsIn(before, event)) {
    add(tally.wrongTopics, topic, { t, ...saying(evidence.text), right: rightIn(pack, before, event, topic) })
  }
  if (event.ends) tellEnd(tally, moment)
}

/** What was open when the end was called. */
export function tellBriefingEnded(tally: Tally, moment: Moment<'briefingEnded'>): void {
  tellEnd(tally, moment)
}

function tellEnd(tally: Tally, { pack, event, after }: Moment<'briefed' | 'briefingEnded'>): void {
  const briefing = briefingsOf(pack).find(({ id }) => id === event.briefing)
  if (!briefing) return
  const open = openTopics(briefing, after)
  // At the first end only: what was said after that was asked for. What was said wrong was not left out.
  if (!tally.leftOut.has(briefing.id)) {
    const unsaid = open.filter(({ id }) => after.topics[id] === undefined)
    tally.leftOut.set(briefing.id, new Set(unsaid.map(({ id }) => id)))
  }
  if (after.briefingsClosed.includes(briefing.id)) return
  const { t, evidence } = event
  add(tally.endsRefused, briefing.id, { t, ...saying(evidence.text), open: open.map(({ label }) => label) })
}

function rightIn(pack: Pack, { values }: RunState, { parts }: RunEvent<'briefed'>, topic: string): string[] {
  const wrong = Object.entries(ownOf(parts ?? {}, topic) ?? {}).filter(([, state]) => state === 'wrong')
  return wrong.flatMap(([name]) => {
    const declared = ownOf(pack.figures.declarations, name)
    const value = values[name]
    if (!declared || value === undefined) return []
    return [`${declared.label}: ${rightValues(declared.spec, value, declared.accept)}`]
  })
}

/** With every topic that applies, in the order of the pack. */
export function briefingsIn(pack: Pack, state: RunState, tally: Tally): DebriefBriefing[] {
  const { wrongTopics, leftOut, endsRefused } = tally
  return talksIn(pack, state).flatMap(({ talk, passed }) => {
    if (talk.type !== 'briefing') return []
    const topics = topicsOf(talk, state).map(({ id, label }) => ({
      ...{ label, state: state.topics[id] ?? ('open' as const) },
      wrong: wrongTopics.get(id) ?? [],
      leftOut: leftOut.get(talk.id)?.has(id) ?? false,
    }))
    const { id, name } = talk
    const done = state.briefingsClosed.includes(id)
    return [{ id, name, done, passed, topics, refused: endsRefused.get(id) ?? [] }]
  })
}

/** Each topic said wrong, each time; and each end called with topics open. */
export const missesInBriefing = ({ topics, refused }: DebriefBriefing): number =>
  topics.reduce((sum, { wrong }) => sum + wrong.length, refused.length)

/** The last time that it was said, it was wrong. */
export const isLastWrong = ({ state, wrong }: DebriefTopic, t: number): boolean =>
  state === 'wrong' && wrong.at(-1)?.t === t

/** What was right by then, where it may be told. */
export const rightWords = (right: WrongTopic['right']): string =>
  right.length === 0 ? 'What is briefed is flown.' : `${capital(right.join('; '))} was right.`

/** What became of a topic that was left out when the end was first called. */
export const LEFT_OUT_THEN: Readonly<Record<DebriefTopic['state'], string>> = {
  ok: 'It came when it was asked for.',
  wrong: 'It came when it was asked for, and wrong.',
  open: 'It was asked for, and did not come.',
}

/** "called complete 3 times, and refused"; empty where it was not. */
export function refusedWords({ refused: { length } }: Pick<DebriefBriefing, 'refused'>): string {
  return length === 0 ? '' : `called complete ${length === 1 ? 'once' : `${length} times`}, and refused`
}

/** "left out at first", "wrong twice", in every account. */
export function topicNotes({ state, wrong: { length }, leftOut }: DebriefTopic): string[] {
  return [
    ...(leftOut ? [state === 'open' ? 'left out' : 'left out at first'] : []),
    ...(length > 0 ? [`wrong ${length === 1 ? 'once' : `${length} times`}`] : []),
  ]
}
