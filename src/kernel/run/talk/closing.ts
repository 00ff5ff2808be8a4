/** How a turn ends: what the station says to a right read-back, and what the turn gave comes into the figures. */

import type { Pack } from '../../pack/checklist.ts'
import type { Exchange, ExchangeTurn } from '../../pack/exchange.ts'
import type { Effect } from '../core/events.ts'
import { enter, sayAndListen } from '../core/listening.ts'
import { nextFloor } from '../core/moving.ts'
import { lastClosed } from '../core/progress.ts'
import type { RunState, Step } from '../core/state.ts'
import { type Speech, stationWords, voiced } from './radio.ts'
import { slippedValue } from './said.ts'
import { closeTurn, turnState, unrecorded, withTurn } from './talk.ts'

/** The station hears a right read-back. One that errs by its script says another value now, and waits. */
export function heardRight(pack: Pack, state: RunState, exchange: Exchange, turn: ExchangeTurn): Step {
  const station = stationWords(pack, state, exchange, turn)
  const slip = state.script?.slip?.turn === turn.id ? state.script.slip : undefined
  const isSlip =
    slip?.kind === 'saysAnother' && !turnState(state, turn.id).slip && slippedValue(pack, state, slip) !== undefined
  if (!isSlip) return finish(pack, state, turn, station.closes())
  const slipped = withTurn(state, turn.id, { status: 'slipped', partsSoFar: [], begun: {} })
  return hearStation(pack, slipped, station.closes(slip))
}

/** All of the turn is right: it is done, and what it gave comes into the figures before anything else. */
export function finish(
  pack: Pack,
  state: RunState,
  turn: ExchangeTurn,
  speech: readonly Speech[],
  change: Parameters<typeof closeTurn>[2] = {},
): Step {
  const closed = lastClosed(closeTurn(state, turn, change), turn.id)
  const values = unrecorded(turn, closed)
  if (Object.keys(values).length === 0) {
    return enter(pack, closed, nextFloor(pack, closed), { tone: 'tick', stations: speech })
  }
  const effects: Effect[] = [
    { type: 'shut' },
    { type: 'stopTimers' },
    { type: 'tone', tone: 'tick' },
    ...speech.map(voiced),
    { type: 'recordFromStation', turn: turn.id, values },
  ]
  return { state: closed, effects }
}

export function hearStation(pack: Pack, state: RunState, speech: readonly Speech[], promptAfterMs?: number): Step {
  return sayAndListen(pack, state, [], { stations: speech, ...(promptAfterMs !== undefined && { promptAfterMs }) })
}
