/** Topics of a briefing in what was said, or its end. */

import type { Transcript } from '../numbers/tokens.ts'
import type { Briefing } from '../pack/exchange.ts'
import { figuresFor } from '../pack/place.ts'
import { readCommand } from '../response/commands.ts'
import { judge } from '../response/judge.ts'
import { isNegation } from '../response/lexicon.ts'
import { responseFrom } from '../response/response.ts'
import { topicsIn } from '../response/topics.ts'
import { yesOrNo } from '../response/yesNo.ts'
import type { EventBody } from '../run/core/events.ts'
import { topicsOf } from '../run/talk/briefing.ts'
import type { Utterance } from './utterance.ts'

/** "Okay, departure briefing": the words around it are those that call a list. */
export function isCalled({ id, name }: Briefing, heard: Transcript): boolean {
  return readCommand(heard, { lists: { [id]: [name, name.replace(/briefing$/i, 'brief')] } })?.command === 'call'
}

/** Topics by their names, with the values in them compared; undefined where nothing of the briefing was said. */
export function briefed(
  { pack, state, said: { heard }, evidence }: Utterance,
  briefing: Briefing,
): EventBody | undefined {
  const ends = isEnd(briefing.ends, heard)
  const topics = topicsOf(briefing, state)
  const figures = figuresFor(
    pack,
    state.values,
    topics.flatMap(({ say }) => say.flatMap((response) => response.figures)),
  )
  const named = topicsIn(topics, figures, heard, state.topicParts)
  if (Object.keys(named.topics).length > 0 || (!ends && isCalled(briefing, heard))) {
    return { type: 'briefed', briefing: briefing.id, evidence, ...named, ...(ends && { ends }) }
  }
  if (ends) return { type: 'briefingEnded', briefing: briefing.id, evidence }
  // It is not finished: what is missing?
  return yesOrNo(heard) === 'no' ? { type: 'commanded', command: 'whatIsLeft', evidence } : undefined
}

/** Asked behind the end of a briefing, or in its place. */
const ANY_QUESTIONS = responseFrom(
  `[do you have] (any questions | questions) [or (comments | concerns)] [for me] | any comments |
   anything (to add | you want to add | I missed | I forgot | I have missed | I have forgotten)`,
)

const isEnd = (ends: Briefing['ends'], heard: Transcript): boolean =>
  endsWith(ends, withoutEnd(ANY_QUESTIONS, heard)) || endsWith(ANY_QUESTIONS, heard)

/** What was said before words that nobody answers. */
function withoutEnd(response: Briefing['ends'], { text, tokens }: Transcript): Transcript {
  const from = beginOfEnd(response, { text, tokens })
  return { text, tokens: from === undefined ? tokens : tokens.slice(0, from) }
}

/** After how many words of one phrase its end is looked for. */
const LONGEST_END = 8

/** The last words are those that end a briefing, whatever was said before them; "not" before them is no end. */
function endsWith(ends: Briefing['ends'], heard: Transcript): boolean {
  const from = beginOfEnd(ends, heard)
  return from !== undefined && !isNegation(heard.tokens[from - 1]?.text ?? '')
}

/** Where these words begin behind which nothing else is said. */
function beginOfEnd(ends: Briefing['ends'], { text, tokens }: Transcript): number | undefined {
  for (let from = tokens.length - 1; from >= 0 && from >= tokens.length - LONGEST_END; from--) {
    if (isNegation(tokens[from]?.text ?? '')) return undefined
    const heard = { text, tokens: tokens.slice(from) }
    if (judge({ response: ends, figures: {}, heard, exact: true }).verdict === 'correct') return from
  }
  return undefined
}
