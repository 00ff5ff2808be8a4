/** What a recogniser made of one utterance: the text that it takes for likeliest, and others that it may have been. */

import { type Transcript, transcriptOf } from '../numbers/tokens.ts'

export interface Hypothesis extends Transcript {
  /** Of the likeliest 1 where none is given. */
  readonly score?: number
}

export interface Hypotheses {
  readonly heard: Hypothesis
  readonly alternatives?: readonly Hypothesis[]
}

interface Scored {
  readonly text: string
  readonly score?: number
}

/** Texts as a recogniser, a log or the command line has them, each cut into tokens here and nowhere else. */
export function hypothesesOf({ alternatives, ...heard }: Scored & { alternatives?: readonly Scored[] }): Hypotheses {
  return { heard: hypothesisOf(heard), ...(alternatives && { alternatives: alternatives.map(hypothesisOf) }) }
}

const hypothesisOf = ({ text, score }: Scored): Hypothesis => ({
  ...transcriptOf(text),
  ...(score !== undefined && { score }),
})

/** Those that are as likely as the one heard. */
export function equallyLikely({ heard, alternatives = [] }: Hypotheses): readonly Hypothesis[] {
  // 0 is what recognisers write that have no scores.
  const mine = heard.score ? heard.score : 1
  return alternatives.filter(({ text, score }) => (!score || score >= mine - 0.1 - 1e-9) && text !== heard.text)
}
