/** Late catch, for the debrief: what new figures left stale, and who noticed. */

import type { Pack } from '../../pack/checklist.ts'
import { findItem } from '../../pack/place.ts'
import { overtaken } from '../core/reopening.ts'
import type { Catch, RunState } from '../core/state.ts'

export interface DebriefCatch {
  /** By its id. */
  readonly item: string
  readonly challenge: string
  /** Times in ms from the start of the run. */
  readonly changedAt: number
  readonly by: Catch['by'] | 'nobody'
  readonly t?: number
}

/** In the order in which they were noticed, then, once the run is over, what nobody noticed: before that it would tell. */
export function catchesIn(pack: Pack, state: RunState, isOver: boolean): DebriefCatch[] {
  const { catches, heldBack } = state
  const noticed = catches.map((one) => ({ challenge: findItem(pack, one.item).item.challenge, ...one }))
  if (!heldBack || !isOver) return noticed
  const left = overtaken(pack, state).map(({ id, challenge }) => ({
    ...{ item: id, challenge },
    changedAt: heldBack.t,
    by: 'nobody' as const,
  }))
  return [...noticed, ...left]
}
