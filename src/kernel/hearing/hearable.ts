/**
 * What may be heard for the open item. Made from kinds and the pack's one vocabulary, never from a
 * value and never from the right wording alone (law 2): its inputs hold none.
 */

import type { KindSpec } from '../kinds/kind.ts'
import type { Least } from '../response/expansion.ts'

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
  /** Telephony designators, heard only where a call sign is asked. */
  readonly names?: readonly string[]
  /** Words of the pack that no dictionary has -> their sounds, in ARPAbet without stress. */
  readonly pronunciations?: Readonly<Record<string, string>>
  /** The standard phrases. */
  readonly commands: readonly string[]
  /** Further words that only exchanges and briefings use; what is heard of them goes with the place: `Talk`. */
  readonly talk: readonly string[]
}

export interface Hearable {
  /** The shapes of the values of the open item, in the order of the response; empty for word items. */
  readonly shapes: readonly KindSpec[]
  /** What an answer to the open item has at least, where that is known. */
  readonly least?: Least
  /** A yes-or-no question is open. */
  readonly yesNo: boolean
  /** Where an exchange or a briefing has the floor. */
  readonly talk?: Talk
  /** Where there is a partner who errs: what may be said to it, and the shapes of the values that it said last. */
  readonly partner?: {
    readonly phrases: readonly string[]
    readonly shapes: readonly KindSpec[]
    /** What stands before such a value on the radio: "squawk". */
    readonly names?: readonly string[]
  }
}

/** What may be said in one exchange or briefing: all of it, not what is right at the moment. */
export interface Talk {
  /** The values that may come now, in any order, with the words that go with each. */
  readonly parts: readonly TalkPart[]
  /** Phrases without values, and the contraries of each. */
  readonly phrases: readonly string[]
  /** Their words, and those that stand beside values. */
  readonly words: readonly string[]
  /** What is said only as a whole: acknowledgements, requests to say again, the end of a briefing. */
  readonly others: readonly string[]
}

export interface TalkPart {
  readonly before: readonly string[]
  readonly shape: KindSpec
  readonly after: readonly string[]
}
