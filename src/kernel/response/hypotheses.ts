/** What a recogniser made of one utterance: the likeliest text, and others that are possible. */

import { type Transcript, transcriptOf } from '../numbers/tokens.ts'

export interface Hypothesis extends Transcript {
  /** The likeliest text counts as 1 where it has none. */
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

/** Texts as a recogniser, a log or the command line has them. They are cut into tokens here and nowhere else. */
export function hypothesesOf({ alternatives, ...heard }: Scored & { alternatives?: readonly Scored[] }): Hypotheses {
  return { heard: hypothesisOf(heard), ...(alternatives && { alternatives: alternatives.map(hypothesisOf) }) }
}

const hypothesisOf = ({ text, score }: Scored): Hypothesis => ({
  ...transcriptOf(text),
  ...(score !== undefined && { score }),
})

/** The alternatives that are as likely as the text heard. */
export function equallyLikely({ heard, alternatives = [] }: Hypotheses): readonly Hypothesis[] {
  // Recognisers without scores write 0.
  const mine = heard.score ? heard.score : 1
  return alternatives.filter(({ text, score }) => (!score || score >= mine - 0.1 - 1e-9) && text !== heard.text)
}
