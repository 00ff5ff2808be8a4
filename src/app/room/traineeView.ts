/** One trainee in a class, in a line: where the run is, whether it waits, what was missed, and how much help is needed. */

import { placeName } from '../../kernel/run/core/interruption.ts'
import type { AppState } from '../store.ts'

export interface TraineeView {
  readonly place: string
  readonly state: string
  readonly misses: number
  /** Why help may be needed; empty where nothing says so. */
  readonly why: string
  /** Whoever has more is seen to first. */
  readonly need: number
}

/** Misses at the open item weigh most, then a run that has come to a stand, then what was missed in all. */
export function traineeView({ pack, run, writer, ear }: AppState): TraineeView {
  if (!pack || !run || run.status === 'none') return { place: '', state: 'no run yet', misses: 0, why: '', need: -1 }
  const misses = Object.values(run.items).reduce((sum, item) => sum + item.misses, 0)
  const here = run.floor.at === 'item' ? (run.items[run.floor.item]?.misses ?? 0) : 0
  const isStopped = run.status === 'stopped'
  const isDeaf = ear.state === 'failed'
  const why = isStopped
    ? 'stopped by a fault'
    : here > 1
      ? `${here} misses at this item`
      : writer === 'elsewhere'
        ? 'not linked'
        : isDeaf
          ? 'the ear hears nothing'
          : ''
  const state = run.status === 'ended' ? 'ended' : run.standingBy ? 'standing by' : 'under way'
  const isOver = run.status === 'ended'
  return {
    place: isOver ? '' : placeName(pack, run),
    state,
    misses,
    why: isOver ? '' : why,
    need: isOver ? 0 : here * 100 + (isStopped ? 1_000 : 0) + (isDeaf ? 50 : 0) + (run.standingBy ? 10 : 0) + misses,
  }
}
