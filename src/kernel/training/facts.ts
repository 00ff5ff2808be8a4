/**
 * What one run says about the pilot, as small records: every trial of an item, a read-back, a call, a flow or a card, every
 * break and how it was resumed, and everything planted in the run. Made from the log alone, so it can be made again.
 */

import type { Cause, Judgement } from '../response/model.ts'
import type { Dial } from '../run/core/events.ts'
import type { Interruption } from '../run/core/state.ts'

/** Facts of another edition are made anew. */
export const FACTS_EDITION = 3

export const TRIAL_CLASSES = ['value', 'word', 'readBack', 'exchange', 'flow', 'watchCall', 'reading'] as const
/**
 * `value` and `word`: items with and without a figure in their answer. `exchange`: the pilot's own call to a station.
 * `flow`: one done from memory. `reading`: a figure that the pilot works out from a card.
 */
export type TrialClass = (typeof TRIAL_CLASSES)[number]

/** Why a trial was not right at once. */
export type MissCause =
  | Cause['cause']
  | 'otherValue'
  | 'otherState'
  | 'leftOut'
  | 'valueless'
  | 'outsideLimits'
  | 'tooEarly'
  | 'late'
  | 'notFromMemory'
  | 'notEnded'

export interface Trial {
  readonly of: TrialClass
  /** What was asked, by its id in the pack: "loadFigures.trim", "clearance.departure"; of a reading the figure. */
  readonly card: string
  /** Ms from the start of the run. */
  readonly t: number
  /** At the first try that could be understood. */
  readonly right: boolean
  /** Ms from the beginning of the challenge, or of the station's words, to the onset of the answer; left out after a break or a "say again". */
  readonly ms?: number
  readonly cause?: MissCause
  /** Its value had been given, or its words shown or said again. */
  readonly helped?: true
  /** Elements that had to be read back. */
  readonly elements?: number
}

export type PlantedKind = 'staleTrim' | 'otherRunway' | 'wrongTotal' | 'oldSheet' | 'slip' | 'lateCatch'

export interface Planted {
  readonly kind: PlantedKind
  readonly caught: boolean
}

export interface Resumption {
  readonly what: Interruption['what']
  /** The first act after the break was for what was open. */
  readonly right: boolean
}

export interface RunFacts {
  readonly edition: number
  readonly runId: string
  readonly packId: string
  /** Clock time, ms since 1970. */
  readonly startedAt: number
  /** A short run of single items, from "Five minutes today". */
  readonly drill?: true
  /** Of read-backs alone: how they were put. */
  readonly dial?: Dial
  readonly trials: readonly Trial[]
  readonly resumptions: readonly Resumption[]
  readonly planted: readonly Planted[]
}

const OF_REASONS: Partial<Record<NonNullable<Judgement['because']>, MissCause>> = {
  state: 'otherState',
  missing: 'leftOut',
  acknowledged: 'leftOut',
  valueless: 'valueless',
  limit: 'outsideLimits',
}

/** Of several things that a wrong value fits, none is named. */
export function causeOf({
  because,
  causes = [],
  verdict,
}: Pick<Judgement, 'because' | 'causes' | 'verdict'>): MissCause {
  const [only, ...others] = causes
  if (only && others.length === 0) return only.cause
  return (because && OF_REASONS[because]) ?? (verdict === 'incomplete' ? 'leftOut' : 'otherValue')
}
