/** Exchanges in the debrief: every transmission, what was shown, insisted on or noticed. */

import { holds } from '../../figures/condition.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { Briefing, Exchange, ExchangeTurn } from '../../pack/exchange.ts'
import { agenda } from '../../pack/place.ts'
import type { Role } from '../../pack/roles.ts'
import type { Slip } from '../core/events.ts'
import type { RunState } from '../core/state.ts'
import { callSignFor, isUnsigned } from '../talk/callSign.ts'
import { turnState } from '../talk/talk.ts'
import { type DebriefTransmission, missesInTurn, sayAgainsIn } from './debriefTry.ts'
import { count, type Moment, type Tally } from './tally.ts'

export interface DebriefTurn {
  readonly id: string
  readonly label: string
  readonly done: boolean
  readonly tries: readonly DebriefTransmission[]
  /** Of calls and read-backs; see `missesInTurn`. */
  readonly misses: number
  /** The ear's. */
  readonly sayAgains: number
  /** How often the pilot asked the station to say it again. */
  readonly asked: number
  /** How often the pilot did not say who is calling, to a controller and understood. */
  readonly unsigned: number
  /** How often "roger" or the like came for a read-back. */
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

/** A station was asked to say its step again. */
export function tellAskedAgain(tally: Tally, { before }: Moment<'commanded'>): void {
  const pending = Object.keys(before.turns).find((id) =>
    ['said', 'relaying', 'relayed', 'slipped'].includes(turnState(before, id).status),
  )
  if (pending && before.floor.at === 'exchange') count(tally.askedAgain, pending)
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

/** None where the voices outside the crew were left out. */
export function talksIn(
  pack: Pack,
  state: RunState,
): { readonly talk: Exchange | Briefing; readonly passed: boolean }[] {
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
    misses: missesInTurn(tries),
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
