/** What the timeline of a run is made of, and what it is made from. */

import type { DebriefFault } from './debriefPartner.ts'
import type { Places } from './places.ts'
import type { Tally } from './tally.ts'

/** In the order in which they are drawn, one lane each. */
export const LANES = ['phase', 'list', 'item', 'talk', 'watch', 'figures', 'break'] as const
export type Lane = (typeof LANES)[number]

/** How something went; `plain` where there is nothing to judge. */
export type Went = 'plain' | 'right' | 'missed' | 'askedAgain' | 'byKey' | 'passed' | 'open'

/** Times are ms from the start of the run. */
export interface TimelineEntry {
  readonly lane: Lane
  readonly t: number
  /** The same as `t` for a point. */
  readonly endT: number
  readonly label: string
  readonly went: Went
  /** One sentence: what was said, and how long it took. */
  readonly told: string
  /** When the answer began. */
  readonly answeredAt?: number
  /** Between which times a call was to be heard. */
  readonly limits?: { readonly soonestAt?: number; readonly dueAt?: number }
  /** Number of the event from which it can be done again. */
  readonly from?: number
}

export interface TimelineFrom {
  readonly tally: Tally
  readonly places: Places
  /** Of the partner; none of them while the run is on. */
  readonly faults?: readonly DebriefFault[] | undefined
}
