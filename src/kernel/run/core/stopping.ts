/**
 * "Stop": an engine start ends in its stop words, the ground crew stops what moves, and nothing goes on by itself. The one
 * whom it concerns answers at once; what was open waits until the pilot says "continue".
 */

import { holds } from '../../figures/condition.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { Exchange, ExchangeTurn } from '../../pack/exchange.ts'
import { agenda } from '../../pack/place.ts'
import { groundStopping } from '../talk/radio.ts'
import { exchangeAt, exchangesOf, reopenTurn, turnState } from '../talk/talk.ts'
import { stoppedByCrew } from '../watch/watching.ts'
import { runningWatch } from '../watch/watchTiming.ts'
import type { RunEvent } from './events.ts'
import { sayAndListen } from './listening.ts'
import { nextFloor } from './moving.ts'
import { onsetOf } from './onset.ts'
import { say } from './phrases.ts'
import type { RunState, Step } from './state.ts'

/**
 * The exchange by which the ground crew is on the line: from the first thing that they have done until the last. Undefined
 * before and after that, and where the voices outside the crew are left out.
 */
export function groundCrewOf(pack: Pack, state: RunState): Exchange | undefined {
  if (!state.script) return undefined
  const here = exchangeAt(pack, state.floor)
  if (here?.station.role === 'groundCrew') return here
  const exchanges = agenda(pack, state).flatMap(({ activity }) =>
    activity.type === 'exchange' && activity.station.role === 'groundCrew' ? [activity] : [],
  )
  const isDone = (id: string) => turnState(state, id).status === 'done'
  const turnsOf = ({ turns }: Exchange) => turns.filter(({ when }) => holds(when, state))
  const isOver = exchanges.every((exchange) => turnsOf(exchange).every(({ id }) => isDone(id)))
  return isOver ? undefined : exchanges.findLast((exchange) => exchange.turns.some(({ id }) => isDone(id)))
}

/** What has set the aircraft moving, where nothing has ended that yet. */
function movingTurns(pack: Pack, state: RunState): ExchangeTurn[] {
  const done = exchangesOf(pack)
    .flatMap(({ turns }) => turns)
    .filter(({ id }) => turnState(state, id).status === 'done')
  return done.some(({ moves }) => moves === 'ends') ? [] : done.filter(({ moves }) => moves === 'begins')
}

/** Everything stops. Throws where the state names what the pack does not have. */
export function stop(pack: Pack, before: RunState, event: RunEvent<'commanded'>): Step {
  const running = runningWatch(pack, before)
  const ground = groundCrewOf(pack, before)
  const stations = ground ? groundStopping(ground) : []
  // What was asked is asked no more: "affirm" to it would go on. Only a warning of the figures stays until it is acknowledged.
  const kept = before.question?.about === 'warnings' ? before.question : undefined
  const question = ground ? ({ about: 'brakes' } as const) : kept
  const still = halted(pack, before)
  if (running) {
    const at = Math.max(0, onsetOf(before, event))
    const { state, words } = stoppedByCrew(still, running, { at, t: event.t })
    return sayAndListen(pack, { ...state, question }, words, { stations, stationsLast: true })
  }
  const state = { ...still, standingBy: !ground, question }
  return sayAndListen(pack, state, ground ? [] : [say.stopped()], { stations })
}

/** The ground crew stops by itself; undefined where none is on the line, or a start has the floor. */
export function stoppedByGround(pack: Pack, before: RunState): Step | undefined {
  const ground = groundCrewOf(pack, before)
  if (!ground || runningWatch(pack, before)) return undefined
  const state = { ...halted(pack, before), standingBy: false, question: { about: 'brakes' } as const }
  return sayAndListen(pack, state, [], { stations: groundStopping(ground) })
}

/** What moved is said again before anything moves again. */
const halted = (pack: Pack, before: RunState): RunState =>
  movingTurns(pack, before).reduce((state, turn) => reopenTurn(state, turn, { status: 'ahead', again: true }), before)

/** The brakes are set: nothing moves, and nothing goes on until the pilot says so. */
export function brakesSet(pack: Pack, before: RunState): Step {
  const ground = groundCrewOf(pack, before)
  const floor = movesAgain(pack, before) ? nextFloor(pack, before) : before.floor
  const state: RunState = { ...before, question: undefined, standingBy: floor.at !== 'watch', floor }
  const text = say.standingBy()
  return ground
    ? sayAndListen(pack, state, [], { stations: [{ role: ground.station.role, text }] })
    : sayAndListen(pack, state, [text])
}

/** Something has to be said again before it moves. */
const movesAgain = (pack: Pack, state: RunState) =>
  exchangesOf(pack).some(({ turns }) => turns.some(({ id, moves }) => moves === 'begins' && state.turns[id]?.again))
