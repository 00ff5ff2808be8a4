/**
 * A colleague who works the radio: the pilot calls, Otherseat's side reads back, the controller hears it. Each part waits
 * until the one before it has been heard, and is an event of its own. Speech is all there is to it: nothing is claimed to
 * be set, so nothing is said to be simulated (law 8).
 */

import type { Pack } from '../../pack/checklist.ts'
import type { Exchange, ExchangeTurn } from '../../pack/exchange.ts'
import type { Effect, RunEvent } from '../core/events.ts'
import { sayAndListen } from '../core/listening.ts'
import type { RunState, Step } from '../core/state.ts'
import type { Fault } from '../partner/model.ts'
import { partnerOf } from '../partner/partner.ts'
import { finish, heardRight } from './closing.ts'
import { stationWords } from './radio.ts'
import { readBackWords } from './readBackWords.ts'
import { saidValues } from './said.ts'
import { exchangeAt, findTurn, isRelayed, pendingTurn, turnState, withTurn } from './talk.ts'

type Radio = Extract<Effect, { type: 'radio' }>

/** What comes next between its side and the controller; nothing while the pilot has it wait. */
export function radioDue(pack: Pack, state: RunState): Radio | undefined {
  if (state.status !== 'running' || state.standingBy || state.question) return undefined
  const exchange = exchangeAt(pack, state.floor)
  const pending = exchange && pendingTurn(exchange, state)
  if (!pending || !isRelayed(state, pending.id)) return undefined
  const isNext = turnState(state, pending.id).status === 'relaying'
  return { type: 'radio', turn: pending.id, part: isNext ? 'readBack' : 'hearBack' }
}

/** Wherever something new is said, what is due on the radio comes behind it. */
export function withRadio(pack: Pack, state: RunState, effects: readonly Effect[]): readonly Effect[] {
  const due = effects.some(({ type }) => type === 'shut') ? radioDue(pack, state) : undefined
  return due ? [...effects, due] : effects
}

/** One that is not due any more changes nothing. Throws where the pack does not have the turn. */
export function radioed(pack: Pack, state: RunState, { turn: id, part }: RunEvent<'radioed'>): Step {
  const due = radioDue(pack, state)
  if (due?.turn !== id || due.part !== part) return { state, effects: [] }
  const { exchange, turn } = findTurn(pack, id)
  return part === 'readBack' ? readBack(pack, state, exchange, turn) : hearBack(pack, state, exchange, turn)
}

function readBack(pack: Pack, before: RunState, exchange: Exchange, turn: ExchangeTurn): Step {
  const { planned } = partnerOf(before)
  const words = readBackWords(pack, before, { exchange, turn }, planned ? wrongIn(before, turn, planned) : {})
  const state = withTurn(before, turn.id, { status: 'relayed' })
  return sayAndListen(pack, state, [], { stations: words })
}

function wrongIn(state: RunState, turn: ExchangeTurn, { kind, about, figure, said, element }: Fault) {
  if (about !== turn.id) return {}
  if (kind === 'leftOut' && element !== undefined) return { without: element }
  if (kind !== 'misread' || figure === undefined || said === undefined) return {}
  return { values: { ...saidValues(state), [figure]: said } }
}

/** The controller does not notice: the pilot is the last barrier. One thing goes wrong at a time. */
function hearBack(pack: Pack, state: RunState, exchange: Exchange, turn: ExchangeTurn): Step {
  if (hasErred(state, turn.id)) return finish(pack, state, turn, stationWords(pack, state, exchange, turn).closes())
  return heardRight(pack, state, exchange, turn)
}

/** Whether what its side read back last in this turn was wrong. */
export const hasErred = (state: RunState, turn: string): boolean =>
  partnerOf(state).chances.findLast(({ kind, about }) => kind === 'colleague' && about === turn)?.fault !== undefined
