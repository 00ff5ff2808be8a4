/**
 * What may be heard for the open item. Made from kinds and the pack's one vocabulary, never from a
 * value and never from the right wording alone (law 2): its inputs hold none.
 */

import type { KindSpec } from '../kinds/kind.ts'

/** All words of a pack's items, in one set that serves every item. Lower case, one token a word. */
export interface Vocabulary {
  /** Every phrase an answer and its states may use, and the contraries of each. */
  readonly phrases: readonly string[]
  /** Every single word an answer, its states and their opposites may use. */
  readonly words: readonly string[]
  /** Words that stand beside a value in any response, and their contraries. */
  readonly besideValues: readonly string[]
  /** Challenges as phrases, since pilots echo them. */
  readonly challenges: readonly string[]
  /** Spoken names of lists. */
  readonly lists: readonly string[]
  /** Other phrases that may be said while a run is on: clearances, situations, steps, reasons. */
  readonly others: readonly string[]
  /** The standard phrases. */
  readonly commands: readonly string[]
  /** What is said to voices outside the crew, in orders and in briefings: heard only where one of these has the floor. */
  readonly talk: Talk
}

export interface Talk {
  readonly phrases: readonly string[]
  readonly words: readonly string[]
  readonly besideValues: readonly string[]
  readonly others: readonly string[]
}

export interface Hearable {
  /** The shapes of the values of the open item, in the order of the response; empty for word items. */
  readonly shapes: readonly KindSpec[]
  /** A yes-or-no question is open. */
  readonly yesNo: boolean
  /** An exchange or a briefing has the floor. */
  readonly talk?: boolean
}
