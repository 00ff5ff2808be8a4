/** Topics of a briefing in what was said, or its end. */

import type { Transcript } from '../numbers/tokens.ts'
import type { Briefing } from '../pack/exchange.ts'
import { figuresFor } from '../pack/place.ts'
import { judge } from '../response/judge.ts'
import { isNegation } from '../response/lexicon.ts'
import { topicsIn } from '../response/topics.ts'
import type { EventBody } from '../run/core/events.ts'
import { topicsOf } from '../run/talk/briefing.ts'
import type { Utterance } from './utterance.ts'

/** Topics by their names, with the values in them compared; undefined where nothing of the briefing was said. */
export function briefed(
  { pack, state, said: { heard }, evidence }: Utterance,
  briefing: Briefing,
): EventBody | undefined {
  const ends = endsWith(briefing.ends, heard)
  const topics = topicsOf(briefing, state)
  const figures = figuresFor(
    pack,
    state.values,
    topics.flatMap(({ say }) => say.flatMap((response) => response.figures)),
  )
  const named = topicsIn(topics, figures, heard, state.topicParts)
  if (Object.keys(named.topics).length > 0) {
    return { type: 'briefed', briefing: briefing.id, evidence, ...named, ...(ends && { ends }) }
  }
  return ends ? { type: 'briefingEnded', briefing: briefing.id, evidence } : undefined
}

/** After how many words of one phrase its end is looked for. */
const LONGEST_END = 8

/** The last words are those that end a briefing, whatever was said before them; "not" before them is no end. */
function endsWith(ends: Briefing['ends'], { text, tokens }: Transcript): boolean {
  for (let from = tokens.length - 1; from >= 0 && from >= tokens.length - LONGEST_END; from--) {
    if (isNegation(tokens[from]?.text ?? '')) return false
    const heard = { text, tokens: tokens.slice(from) }
    if (judge({ response: ends, figures: {}, heard, exact: true }).verdict === 'correct') {
      return !isNegation(tokens[from - 1]?.text ?? '')
    }
  }
  return false
}
