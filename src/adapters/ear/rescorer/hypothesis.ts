/** A text and how likely it is to be what was said. */

export interface Weighed {
  readonly text: string
  /** Natural logarithm of its probability, given the sound. */
  readonly weight: number
  /** The same where nothing was said: how readily the model writes it anyway. 0 where that was not asked for. */
  readonly habit: number
}

/**
 * Of the habit so much is taken off, or the words of a list would never stand against everyday ones, nor a long text
 * against a short one. That a model of this kind has a language model inside, which can be measured without sound and
 * subtracted, is usual (Meng and others, internal language model estimation, 2021, from memory). Chosen on the tuning set.
 */
const HABIT = 0.4

/** What two texts are compared by. */
export const proportion = ({ weight, habit }: Weighed): number => weight - HABIT * habit

export const wordsIn = (text: string): number => text.split(' ').length
