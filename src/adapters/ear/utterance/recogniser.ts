/** What the ear asks of a recogniser during an utterance. Whatever implements this can take a pass. */

import type { Grammar } from '../../../kernel/grammarRules.ts'
import type { Hearable } from '../../../kernel/hearing/hearable.ts'
import type { HeardWord } from '../../../kernel/hearing/heard.ts'

/** What one pass heard in an utterance. */
export interface Decoded {
  /** Words of the best path without silences; what only fits the path for other speech is left out. */
  readonly text: string
  readonly words: readonly HeardWord[]
  /** Share of the speech that only fits the path for other speech, 0 to 1. */
  readonly otherSpeech: number
}

/** What to listen for: the shape of the item and all that may be said to it. Holds no value (law 2). */
export interface Task {
  readonly hearable: Hearable
  readonly grammar: Grammar
}

/** All sound is 16 kHz mono, at any level. */
export interface Recogniser {
  /** From now on by this grammar; an utterance under way is dropped. */
  expect(task: Task): void
  /** Begins to decode an utterance while it comes: what there is of it so far. */
  begin(pcm: Float32Array): void
  /** The next piece of it. */
  push(pcm: Float32Array): void
  /** What was said; undefined where it could not be decoded while it came, so that the whole of it has to be. */
  end(): Decoded | undefined
  /** Decodes a whole utterance. */
  decode(pcm: Float32Array): Decoded
  /** Decodes a whole utterance in another way than usual, for a second opinion; nothing is learned from it. */
  decodeOtherwise(pcm: Float32Array): Decoded
}

/** The same where it may run in another thread and answer later. Never rejects. */
export type RecogniserAnywhere = {
  readonly [Name in keyof Recogniser]: (
    ...args: Parameters<Recogniser[Name]>
  ) => ReturnType<Recogniser[Name]> | Promise<ReturnType<Recogniser[Name]>>
}

/** Two passes over each utterance, by two recognisers. The first answers at once; the second can only add doubt (law 2). */
export interface Passes {
  readonly first: Recogniser
  readonly second: RecogniserAnywhere
}
