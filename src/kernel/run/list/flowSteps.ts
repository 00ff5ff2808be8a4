/** The open flow, and which of its steps are to be done. */

import type { Flow, Step as FlowStep, Pack } from '../../pack/checklist.ts'
import { stepsOf } from '../../pack/place.ts'
import type { Floor, RunState } from '../core/state.ts'

/** The flow that has the floor. */
export function flowAt(pack: Pack, floor: Floor): Flow | undefined {
  const activity = floor.at === 'flow' ? pack.phases[floor.phase]?.activities[floor.activity] : undefined
  return activity?.type === 'flow' ? activity : undefined
}

/** Steps of a flow that are to be done: those open again where it was done once. */
export function openSteps(flow: Flow, state: RunState): FlowStep[] {
  const steps = stepsOf(flow, state.situation)
  const again = steps.filter(({ id }) => state.stepsAgain.includes(id))
  if (again.length > 0 || state.flowsClosed.includes(flow.id)) return again
  return steps.filter(({ id }) => !state.stepsDone.includes(id))
}
