/** Exchanges and briefings in the debrief: every transmission, what was shown, insisted on or noticed, and what was left out. */

import { holds } from '../../figures/condition.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { Briefing, Exchange, ExchangeTurn } from '../../pack/exchange.ts'
import { agenda } from '../../pack/place.ts'
import type { Role } from '../../pack/roles.ts'
import type { Slip } from '../core/events.ts'
import type { RunState } from '../core/state.ts'
import { openTopics, topicsOf } from '../talk/briefing.ts'
import { callSignFor, isUnsigned } from '../talk/callSign.ts'
import { briefingsOf, turnState } from '../talk/talk.ts'
import { type DebriefTransmission, missesIn, sayAgainsIn } from './debriefTry.ts'
import { count, type Moment, type Tally } from './tally.ts'

export interface DebriefTurn {
  readonly id: string
  readonly label: string
  readonly done: boolean
  readonly tries: readonly DebriefTransmission[]
  /** Calls and read-backs with a wrong value, or with something missing; the pilot's. */
  readonly misses: number
  /** The ear's. */
  readonly sayAgains: number
  /** How often the pilot asked the station to say it again. */
  readonly asked: number
  /** How often the pilot did not say who is calling, to a controller and understood. */
  readonly unsigned: number
  /** How often "roger" or the like came for a read-back; among the misses. */
  readonly acknowledged: number
  /** The words were shown on the screen. */
  readonly shown: boolean
  /** What an order was kept to against the figure. */
  readonly insisted?: string
  /** Labels of what the station asked to have confirmed and was never told: the pilot insisted. */
  readonly waived: readonly string[]
  /** The controller erred here, and whether it was noticed. */
  readonly slip?: { readonly kind: Slip['kind']; readonly noticed: boolean }
  readonly byKey: boolean
}

export interface DebriefExchange {
  readonly id: string
  readonly name: string
  readonly station: string
  readonly role: Role
  readonly done: boolean
  /** A list that comes after it was called, or all lists were complete at the end. */
  readonly passed: boolean
  readonly turns: readonly DebriefTurn[]
}

export interface DebriefBriefing {
  readonly id: string
  readonly name: string
  readonly done: boolean
  /** A list that comes after it was called, or all lists were complete at the end. */
  readonly passed: boolean
  readonly topics: readonly {
    readonly label: string
    readonly state: 'ok' | 'wrong' | 'open'
    /** How often it was said with a wrong value. */
    readonly misses: number
    /** Not covered when the briefing was first called complete. */
    readonly leftOut: boolean
  }[]
}

/** A station was asked to say its step again. */
export function tellAskedAgain(tally: Tally, { before }: Moment<'commanded'>): void {
  const pending = Object.keys(before.turns).find((id) => ['said', 'slipped'].includes(turnState(before, id).status))
  if (pending && before.floor.at === 'exchange') count(tally.askedAgain, pending)
}

/** Topics with wrong values, and what was left out where the same breath ended the briefing. */
export function tellBriefed(tally: Tally, { pack, event, before }: Moment<'briefed'>): void {
  for (const [topic, state] of Object.entries(event.topics)) if (state === 'wrong') count(tally.wrongTopics, topic)
  if (event.ends) {
    tellLeftOut(tally, pack, event.briefing, { ...before, topics: { ...before.topics, ...event.topics } })
  }
}

/** What was left out. */
export function tellBriefingEnded(tally: Tally, { pack, event, before }: Moment<'briefingEnded'>): void {
  tellLeftOut(tally, pack, event.briefing, before)
}

/** At the first end only: what was said after that was asked for. */
function tellLeftOut({ leftOut }: Tally, pack: Pack, id: string, state: RunState): void {
  const briefing = briefingsOf(pack).find((one) => one.id === id)
  if (!briefing || leftOut.has(id)) return
  // What was said wrong was not left out.
  const unsaid = openTopics(briefing, state).filter((topic) => state.topics[topic.id] === undefined)
  leftOut.set(id, new Set(unsaid.map((topic) => topic.id)))
}

/** With every turn that applies, in the order of the pack. */
export function exchangesIn(pack: Pack, state: RunState, tally: Tally): DebriefExchange[] {
  return talksIn(pack, state).flatMap(({ talk, passed }) => {
    if (talk.type !== 'exchange') return []
    const turns = talk.turns
      .filter(({ when }) => holds(when, state))
      .map((turn) => turnIn(pack, state, turn, tally, callSignFor(pack, talk)))
    const { id, name, station } = talk
    const done = turns.every((turn) => turn.done)
    return [{ id, name, station: station.name, role: station.role, done, passed, turns }]
  })
}

/** With every topic that applies, in the order of the pack. */
export function briefingsIn(pack: Pack, state: RunState, { wrongTopics, leftOut }: Tally): DebriefBriefing[] {
  return talksIn(pack, state).flatMap(({ talk, passed }) => {
    if (talk.type !== 'briefing') return []
    const topics = topicsOf(talk, state).map(({ id, label }) => ({
      label,
      state: state.topics[id] ?? ('open' as const),
      misses: wrongTopics.get(id) ?? 0,
      leftOut: leftOut.get(talk.id)?.has(id) ?? false,
    }))
    return [{ id: talk.id, name: talk.name, done: state.briefingsClosed.includes(talk.id), passed, topics }]
  })
}

/** None where the voices outside the crew were left out. */
function talksIn(pack: Pack, state: RunState): { readonly talk: Exchange | Briefing; readonly passed: boolean }[] {
  if (!state.script) return []
  const activities = agenda(pack, state).map(({ activity }) => activity)
  const lists = activities.filter((activity) => activity.type === 'list' && !activity.anytime)
  const isFlown = state.status === 'ended' && lists.every(({ id }) => state.lists[id]?.complete)
  const lastCalled = activities.findLastIndex(({ id }) => state.lists[id]?.called)
  return activities.flatMap((talk, at) =>
    talk.type === 'exchange' || talk.type === 'briefing' ? [{ talk, passed: isFlown || at < lastCalled }] : [],
  )
}

function turnIn(
  pack: Pack,
  state: RunState,
  turn: ExchangeTurn,
  { transmissions, askedAgain }: Tally,
  callSign: string | undefined,
): DebriefTurn {
  const { status, shown, insisted, slip, waived = [] } = turnState(state, turn.id)
  const kind = state.script?.slip?.kind
  const tries = transmissions.get(turn.id) ?? []
  return {
    id: turn.id,
    label: turn.label,
    done: status === 'done',
    tries,
    misses: missesIn(tries),
    sayAgains: sayAgainsIn(tries),
    asked: askedAgain.get(turn.id) ?? 0,
    unsigned: tries.filter(({ by, judgement }) => by !== 'key' && isUnsigned(judgement, callSign)).length,
    acknowledged: tries.filter(({ judgement }) => judgement.because === 'acknowledged').length,
    shown,
    ...(insisted !== undefined && { insisted }),
    waived: waived.map((name) => pack.figures.declarations[name]?.label ?? name),
    ...(slip && kind && { slip: { kind, noticed: slip === 'noticed' } }),
    byKey: tries.some(({ by }) => by === 'key'),
  }
}
