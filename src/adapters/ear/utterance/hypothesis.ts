/** A text that may have been said, with its probability by the second model. */

export interface Hypothesis {
  readonly text: string
  /** Natural logarithm of its probability, given the sound. */
  readonly logProb: number
  /** The same given a sound in which nothing is said: how readily the model writes it anyway. 0 where not asked for. */
  readonly priorLogProb: number
}

/**
 * Share of the prior that is taken off. Otherwise the words of a checklist would never stand against everyday ones, nor a
 * long text against a short one. A model of this kind has a language model inside, which can be measured without sound
 * and subtracted (Meng and others, internal language model estimation, 2021, from memory). Chosen on the tuning set.
 */
const PRIOR_SHARE = 0.4

/** What texts are ranked by, in nats. */
export const normalisedScore = ({ logProb, priorLogProb }: Hypothesis): number => logProb - PRIOR_SHARE * priorLogProb

export const wordCount = (text: string): number => text.split(' ').length
