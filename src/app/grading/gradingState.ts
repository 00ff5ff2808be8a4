/** What the screen "Grading" shows: a recorded run, one's own grades of it, and how far others agree. */

import type { GradingList } from '../../kernel/pack/grading.ts'
import type { TimelineEntry } from '../../kernel/run/debrief/timelineEntry.ts'
import type { KeptSheet } from '../../ports.ts'
import type { RaterComparison } from './comparisons.ts'

export interface GradingState {
  readonly runId: string
  /** Name of the pack. */
  readonly pack: string
  readonly startedAt: number
  readonly list: GradingList
  /** Names of the phases. */
  readonly parts: readonly string[]
  readonly timeline: readonly TimelineEntry[]
  readonly own: KeptSheet
  /** With each instructor whose grades of this run are here; none before one's own are finished. */
  readonly comparisons: readonly RaterComparison[]
  readonly wrong: string
  readonly told: string
}
