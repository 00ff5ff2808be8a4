/** A list in the debrief, with its items. */

import type { PassReason } from '../../response/commands.ts'
import type { By } from '../core/events.ts'
import type { ItemStatus } from '../core/state.ts'
import type { DebriefTry } from './debriefTry.ts'

export interface DebriefItem {
  readonly id: string
  readonly challenge: string
  readonly status: ItemStatus
  readonly by?: By
  readonly reason?: PassReason
  readonly given: boolean
  /** What was read off gauges for it, or noted: "time off 1435". */
  readonly readings: readonly string[]
  readonly tries: readonly DebriefTry[]
  /** Verdicts negative, incomplete; the pilot's. */
  readonly misses: number
  /** The ear's. */
  readonly sayAgains: number
  /** How often a changed figure, or the pilot, opened it again. */
  readonly reopened: number
  /** What to look at, and how often Otherseat had to send the eyes there. */
  readonly look: readonly string[]
  readonly looks: number
}

export interface DebriefList {
  readonly id: string
  readonly name: string
  readonly complete: boolean
  readonly revoked: boolean
  readonly onPreliminary: boolean
  /** Never called: its phase passed without it. */
  readonly called: boolean
  readonly items: readonly DebriefItem[]
}
