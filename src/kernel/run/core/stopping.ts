/**
 * "Stop": an engine start ends in its stop words, the ground crew stops what moves, and nothing goes on by itself. The one
 * whom it concerns answers at once; what was open waits until the pilot says "continue".
 */

import type { Pack } from '../../pack/checklist.ts'
import type { Exchange } from '../../pack/exchange.ts'
import { agenda, holds } from '../../pack/place.ts'
import { groundStopping } from '../talk/radio.ts'
import { exchangeAt, turnState } from '../talk/talk.ts'
import { stoppedByCrew } from '../watch/watching.ts'
import { runningWatch } from '../watch/watchTiming.ts'
import type { RunEvent } from './events.ts'
import { sayAndListen } from './listening.ts'
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
  const exchanges = agenda(pack, state.situation).flatMap(({ activity }) =>
    activity.type === 'exchange' && activity.station.role === 'groundCrew' ? [activity] : [],
  )
  const isDone = (id: string) => turnState(state, id).status === 'done'
  const turnsOf = ({ turns }: Exchange) => turns.filter(({ when }) => holds(when, state.situation))
  const isOver = exchanges.every((exchange) => turnsOf(exchange).every(({ id }) => isDone(id)))
  return isOver ? undefined : exchanges.findLast((exchange) => exchange.turns.some(({ id }) => isDone(id)))
}

/** Everything stops. Throws where the state names what the pack does not have. */
export function stop(pack: Pack, before: RunState, { evidence }: RunEvent<'commanded'>): Step {
  const running = runningWatch(pack, before)
  const ground = groundCrewOf(pack, before)
  const stations = ground ? groundStopping(ground) : []
  const question = ground ? ({ about: 'brakes' } as const) : before.question
  if (running) {
    const at = Math.max(0, (evidence.beganAt ?? before.startedAt + before.t) - before.startedAt)
    const { state, words } = stoppedByCrew(before, running, at)
    return sayAndListen(pack, { ...state, question: ground && question }, words, { stations, stationsLast: true })
  }
  const state = { ...before, standingBy: question?.about !== 'brakes', question }
  return sayAndListen(pack, state, ground ? [] : [say.stopped()], { stations })
}

/** The brakes are set: nothing moves, and nothing goes on until the pilot says so. */
export function brakesSet(pack: Pack, before: RunState): Step {
  const state = { ...before, question: undefined, standingBy: before.floor.at !== 'watch' }
  return sayAndListen(pack, state, [say.standingBy()])
}
