/** Flows: steps ticked one by one or all at once, read out on request, done again where what they set has changed. */

import type { Flow, Pack } from '../../pack/checklist.ts'
import { flowsOf } from '../../pack/place.ts'
import type { RunEvent } from '../core/events.ts'
import { unmet } from '../core/interlocks.ts'
import { enter, sayAndListen } from '../core/listening.ts'
import { nextFloor } from '../core/moving.ts'
import { notYet } from '../core/notYet.ts'
import { say } from '../core/phrases.ts'
import type { RunState, Step } from '../core/state.ts'
import { flowAt, openSteps } from './flowSteps.ts'

const without = (names: readonly string[], gone: readonly string[]) => names.filter((name) => !gone.includes(name))

/** Ticks a step of any flow; the open one is over with its last. */
export function stepDone(pack: Pack, state: RunState, event: RunEvent<'stepDone'>): Step {
  const flow = flowsOf(pack).find(({ steps }) => steps.some(({ id }) => id === event.step))
  const step = flow?.steps.find(({ id }) => id === event.step)
  if (!flow || !step || state.stepsDone.includes(step.id)) return { state, effects: [] }
  const blockedBy = unmet(pack, state, step.interlocks, event.t)
  if (blockedBy) return notYet(pack, state, step.id, blockedBy)
  const done: RunState = {
    ...state,
    standingBy: false,
    stepsDone: [...state.stepsDone, step.id],
    stepsAgain: without(state.stepsAgain, [step.id]),
  }
  if (flowAt(pack, state.floor)?.id !== flow.id) return { state: done, effects: [{ type: 'tone', tone: 'tick' }] }
  if (openSteps(flow, done).length === 0) return closed(pack, done, flow)
  return done.readingFlow
    ? sayAndListen(pack, done, [], { prompt: true, tone: 'tick' })
    : { state: done, effects: [{ type: 'tone', tone: 'tick' }] }
}

/** "Done" is said of all of its steps: none may be blocked by an interlock. */
export function flowClosed(pack: Pack, state: RunState, event: RunEvent<'flowClosed'>): Step {
  const flow = flowsOf(pack).find(({ id }) => id === event.flow)
  if (!flow) return { state, effects: [] }
  for (const step of openSteps(flow, state)) {
    const blockedBy = unmet(pack, state, step.interlocks, event.t)
    if (blockedBy) return notYet(pack, state, step.id, blockedBy)
  }
  return closed(pack, { ...state, standingBy: false }, flow)
}

function closed(pack: Pack, state: RunState, flow: Flow): Step {
  const ids = openSteps(flow, state).map(({ id }) => id)
  const done: RunState = {
    ...state,
    readingFlow: false,
    flowsClosed: [...new Set([...state.flowsClosed, flow.id])],
    stepsDone: [...new Set([...state.stepsDone, ...ids])],
    stepsAgain: without(
      state.stepsAgain,
      flow.steps.map(({ id }) => id),
    ),
  }
  const words = state.readingFlow ? [say.flowComplete()] : []
  return enter(pack, done, nextFloor(pack, done), { words, tone: 'tick' })
}

/** Read out one by one from now on: each is said again until it is ticked. */
export function flowAsked(pack: Pack, state: RunState): Step {
  const isHere = flowAt(pack, state.floor) !== undefined
  return sayAndListen(pack, { ...state, standingBy: false, readingFlow: isHere }, [], { prompt: true })
}
