/** A log, folded: each event with the run before and after it. What is told of a run, or played of it, is made from these. */

import type { Pack } from '../../pack/checklist.ts'
import { emptyRun } from '../core/emptyRun.ts'
import type { Effect, RunEvent } from '../core/events.ts'
import { seamOf } from '../core/seam.ts'
import { step } from '../core/step.ts'
import { freezesIn, withoutFreezes } from './freezes.ts'
import type { Moment } from './tally.ts'

export interface FoldedMoment extends Moment {
  /** What was asked for then. */
  readonly effects: readonly Effect[]
}

export interface Moments {
  /** What does not count in it: events of another run that a moment done again began with, or what a run was begun behind. */
  readonly taken: readonly FoldedMoment[]
  readonly own: readonly FoldedMoment[]
}

/**
 * Of the log of one run, in order and from its beginning; the time that a room had it frozen is taken out. Throws where it
 * names what the pack does not have.
 */
export function momentsOf(pack: Pack, events: readonly RunEvent[]): Moments {
  const lastTaken = seamOf(events)
  const folded = foldedOf(pack, events)
  const freezes = freezesIn(folded)
  const all = freezes.length === 0 ? folded : foldedOf(pack, withoutFreezes(events, freezes))
  const isTaken = ({ event }: FoldedMoment) => event.seq <= lastTaken
  return { taken: all.filter(isTaken), own: all.filter((one) => !isTaken(one)) }
}

function foldedOf(pack: Pack, events: readonly RunEvent[]): FoldedMoment[] {
  let state = emptyRun(events[0]?.runId ?? '')
  return events.map((event): FoldedMoment => {
    const before = state
    const { state: after, effects } = step(pack, before, event)
    state = after
    return { pack, event, before, after, effects }
  })
}
