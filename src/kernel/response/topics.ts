/**
 * Topics of a briefing in free talk: each is looked for by its own words, and what stands behind them is compared with
 * its values. The longest stretch that can be judged counts, so that no word is dropped to make a value right.
 */

import type { Figures } from '../kinds/kind.ts'
import { type Token, tokensOf } from '../numbers/tokens.ts'
import { judge } from './judge.ts'
import { figuresOf, parseResponse, phrasesOf } from './parse.ts'
import { pathsOf } from './path.ts'

export interface SpokenTopic {
  readonly id: string
  /** Ways to say it, in the response notation. */
  readonly say: readonly string[]
}

export interface Named {
  readonly topics: Readonly<Record<string, 'ok' | 'wrong'>>
  /** What was taken for wrong values. */
  readonly heard: readonly string[]
}

/** What of the topics was said in a text. A topic without figures is named by its words alone. */
export function topicsIn(topics: readonly SpokenTopic[], figures: Figures, text: string): Named {
  const tokens = tokensOf(text)
  const found: Record<string, 'ok' | 'wrong'> = {}
  const heard: string[] = []
  const starts = startsOf(topics, figures, tokens)
  for (const { id, response, from, to } of starts) {
    const outcome = outcomeOf(response, figures, tokens, from, to, text)
    if (outcome === undefined || found[id] === 'wrong') continue
    found[id] = outcome.state
    if (outcome.state === 'wrong') heard.push(outcome.heard)
  }
  return { topics: found, heard }
}

interface Start {
  readonly id: string
  readonly response: string
  readonly from: number
  /** Where the next topic begins. */
  readonly to: number
}

function startsOf(topics: readonly SpokenTopic[], figures: Figures, tokens: readonly Token[]): Start[] {
  const begins = topics.flatMap(({ id, say }) =>
    say.flatMap((response) => {
      const phrases = keywordsOf(response, figures)
      const at = tokens.flatMap((_, index) =>
        phrases.some((words) => words.every((word, i) => tokens[index + i]?.text === word)) ? [index] : [],
      )
      return at.slice(0, 1).map((from) => ({ id, response, from }))
    }),
  )
  return begins.map((begin) => {
    const later = begins.filter(({ id, from }) => id !== begin.id && from > begin.from).map(({ from }) => from)
    return { ...begin, to: Math.min(tokens.length, ...later) }
  })
}

/** What a topic is named by: the words that stand right before its first figure, the positions of a choice, or all of it. */
function keywordsOf(response: string, figures: Figures): string[][] {
  const parsed = parseResponse(response)
  if (!('response' in parsed)) return []
  const wordsIn = (texts: readonly string[]) =>
    texts.filter((text) => text !== '').map((text) => tokensOf(text).map((token) => token.text))
  if (figuresOf(parsed.response).length === 0) return wordsIn(phrasesOf(parsed.response))
  return pathsOf(parsed.response).flatMap((path) => {
    const first = path.find((slot) => slot.type === 'figure')
    if (!first) return []
    if (first.labels.length > 0) return first.labels.map(({ words }) => [...words])
    const figure = figures[first.figure]
    return figure?.kind === 'choice' ? wordsIn(Object.values(figure.options).flat()) : []
  })
}

function outcomeOf(
  response: string,
  figures: Figures,
  tokens: readonly Token[],
  from: number,
  to: number,
  text: string,
): { state: 'ok' | 'wrong'; heard: string } | undefined {
  const parsed = parseResponse(response)
  const hasFigures = 'response' in parsed && figuresOf(parsed.response).length > 0
  if (!hasFigures) return { state: 'ok', heard: '' }
  for (let end = to; end > from; end--) {
    const part = text.slice(tokens[from]?.start, tokens[end - 1]?.end)
    const { verdict, because, parts } = judge({ response, figures, heard: part })
    if (verdict === 'correct') return { state: 'ok', heard: part }
    if (verdict === 'negative' && because !== 'refused') {
      const wrong = parts.flatMap((one) => (one.state === 'wrong' && one.heard ? [one.heard] : []))
      return { state: 'wrong', heard: wrong.join(', ') || part }
    }
  }
  return undefined
}
