/** A debrief that is looked at in the middle of a run: what would be right at something still open is not told (law 4). */

import type { RunState } from '../core/state.ts'
import type { DebriefBriefing } from './debriefBriefing.ts'
import type { DebriefItem, DebriefList } from './debriefList.ts'
import type { DebriefExchange } from './debriefTalk.ts'
import { type DebriefTransmission, type DebriefTry, missesInTurn } from './debriefTry.ts'
import type { DebriefRevision, Moment } from './tally.ts'

const OPEN: ReadonlySet<DebriefItem['status']> = new Set(['open', 'reopened', 'leftOpen'])

/** Of an item whose value was given nothing is left to be kept. */
export function listsUnderWay(lists: readonly DebriefList[]): DebriefList[] {
  return lists.map((list) => ({
    ...list,
    items: list.items.map((item) =>
      OPEN.has(item.status) && !item.given ? { ...item, tries: withoutRight(item.tries) } : item,
    ),
  }))
}

/** Nor of a turn whose words were shown. */
export function exchangesUnderWay(exchanges: readonly DebriefExchange[]): DebriefExchange[] {
  return exchanges.map((exchange) => ({
    ...exchange,
    turns: exchange.turns.map((turn) =>
      turn.done || turn.shown ? turn : { ...turn, tries: withoutRight(turn.tries) },
    ),
  }))
}

/** A controller's slip that nobody has noticed, and the read-back that it let through, are for when the run is over. */
export function withoutSlips(exchanges: readonly DebriefExchange[]): DebriefExchange[] {
  return exchanges.map((exchange) => ({
    ...exchange,
    turns: exchange.turns.map(({ slip, ...turn }) => {
      if (!slip) return turn
      if (slip.noticed) return { ...turn, slip }
      const tries = turn.tries.filter((one) => !isLetThrough(one, turn.tries))
      return { ...turn, tries, misses: missesInTurn(tries) }
    }),
  }))
}

const isLetThrough = (one: DebriefTransmission, tries: readonly DebriefTransmission[]) =>
  one.part === 'readBack' && one.judgement.verdict === 'negative' && one === tries.at(-1)

/** The same along the time of the run; `atEnd`: the state as it is by now. */
export function momentsWithoutSlips(moments: readonly Moment[], atEnd: RunState): readonly Moment[] {
  const isSlipped = ({ turns }: RunState, turn: string) => ['open', 'unnoticed'].includes(turns[turn]?.slip ?? '')
  return moments.filter(({ event, after }) => {
    if (event.type !== 'transmitted' || event.judgement.verdict !== 'negative') return true
    return !isSlipped(after, event.turn) || !isSlipped(atEnd, event.turn)
  })
}

/** Nor of a topic that is still to be said. */
export function briefingsUnderWay(briefings: readonly DebriefBriefing[]): DebriefBriefing[] {
  return briefings.map((briefing) => ({
    ...briefing,
    topics: briefing.topics.map((topic) =>
      topic.state === 'ok' ? topic : { ...topic, wrong: topic.wrong.map((one) => ({ ...one, right: [] })) },
    ),
  }))
}

/** Nor what a figure is now. */
export function revisionsUnderWay(revisions: readonly DebriefRevision[]): DebriefRevision[] {
  return revisions.map((one) => ({ ...one, changed: one.changed.map(({ label }) => ({ label })) }))
}

function withoutRight<T extends DebriefTry>(tries: readonly T[]): T[] {
  return tries.map((one) => {
    const parts = one.judgement.parts.map(({ expected: _, limits: __, ...part }) => part)
    return { ...one, judgement: { ...one.judgement, parts } }
  })
}
