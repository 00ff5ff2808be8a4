/** A log, folded: each event with the run before and after it. What is told of a run, or played of it, is made from these. */

import type { Pack } from '../../pack/checklist.ts'
import { emptyRun } from '../core/emptyRun.ts'
import type { Effect, RunEvent } from '../core/events.ts'
import { step } from '../core/step.ts'
import type { Moment } from './tally.ts'

export interface FoldedMoment extends Moment {
  /** What was asked for then. */
  readonly effects: readonly Effect[]
}

export interface Moments {
  /** Events of another run that a moment done again began with: they count in that run. Empty for any other run. */
  readonly taken: readonly FoldedMoment[]
  readonly own: readonly FoldedMoment[]
}

/** Of the log of one run, in order and from its beginning. Throws where it names what the pack does not have. */
export function momentsOf(pack: Pack, events: readonly RunEvent[]): Moments {
  const [first] = events
  const lastTaken = first?.type === 'runStarted' ? (first.again?.seq ?? -1) : -1
  let state = emptyRun(first?.runId ?? '')
  const all = events.map((event): FoldedMoment => {
    const before = state
    const { state: after, effects } = step(pack, before, event)
    state = after
    return { pack, event, before, after, effects }
  })
  const isTaken = ({ event }: FoldedMoment) => event.seq <= lastTaken
  return { taken: all.filter(isTaken), own: all.filter((one) => !isTaken(one)) }
}
