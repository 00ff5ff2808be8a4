/**
 * What may be heard for the open item. Made from kinds and the pack's one vocabulary, never from a
 * value and never from the right wording alone (law 2): its inputs hold none.
 */

import type { KindSpec } from '../kinds/kind.ts'

/** All words of a pack's word items, in one set that serves every item. */
export interface Vocabulary {
  /** Every phrase an answer, its states and their opposites may use. */
  readonly phrases: readonly string[]
  /** Words of challenges, since pilots echo them. */
  readonly challenges: readonly string[]
  /** Spoken names of lists. */
  readonly lists: readonly string[]
  /** Other words that may be said while a run is on: flow steps, clearances, situations, reasons. */
  readonly others: readonly string[]
}

export interface Hearable {
  /** The shapes of the values of the open item, in the order of the response; empty for word items. */
  readonly shapes: readonly KindSpec[]
  /** A yes-or-no question is open. */
  readonly yesNo: boolean
}
