/** The open flow, which of its steps are to be done, and which are to be done again. */

import type { Flow, Step as FlowStep, Pack } from '../../pack/checklist.ts'
import { flowsOf, stepsOf } from '../../pack/place.ts'
import type { Floor, RunState } from '../core/state.ts'

/** The flow that has the floor. */
export function flowAt(pack: Pack, floor: Floor): Flow | undefined {
  const activity = floor.at === 'flow' ? pack.phases[floor.phase]?.activities[floor.activity] : undefined
  return activity?.type === 'flow' ? activity : undefined
}

/** Steps of a flow that are to be done: those open again where it was done once. */
export function openSteps(flow: Flow, state: RunState): FlowStep[] {
  const steps = stepsOf(flow, state)
  const again = steps.filter(({ id }) => state.stepsAgain.includes(id))
  if (again.length > 0 || state.flowsClosed.includes(flow.id)) return again
  return steps.filter(({ id }) => !state.stepsDone.includes(id))
}

/** Steps that set one of these figures and were done, or said to be done, are open again. */
export function stepsToRepeat(pack: Pack, state: RunState, moved: readonly string[]): FlowStep[] {
  return flowsOf(pack).flatMap((flow) =>
    stepsOf(flow, state).filter(
      ({ id, sets }) =>
        (state.flowsClosed.includes(flow.id) || state.stepsDone.includes(id)) &&
        sets.some((name) => moved.includes(name)),
    ),
  )
}
