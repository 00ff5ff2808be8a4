/** The likeliest texts of a grammar, by a beam search over the tokens that words are written with. Pure: the model is handed in. */

import type { GrammarState } from '../../../kernel/hearing/grammarWalk.ts'
import { wordCount } from '../utterance/hypothesis.ts'

/** Natural logarithm of the probability that this token comes next. */
export type NextLogProb = (token: number) => number

/** Continues one of the previous rows with one more token. */
export interface Row {
  readonly from: number
  readonly token: number
}

export interface WordTokens {
  readonly begin: number
  readonly end: number
  readonly stop: number
  readonly comma: number
  /** Of a word as it is written at the beginning of a text, or after another word. */
  of(word: string, isFirst: boolean): readonly number[]
}

export interface TokenModel {
  readonly tokens: WordTokens
  /** One step of all rows at once. */
  readonly step: (rows: readonly Row[]) => Promise<readonly NextLogProb[]>
  /** No text has more tokens. */
  readonly longest: number
}

/** Width of the beam, chosen on the tuning set: with two rows rivals are lost. */
const ROWS = 3
/** A row this far behind a complete text never wins, in nats. */
const FAR = 4.5
/** Bonus for each word, in nats: a text with fewer of them is likelier from the start. */
const WORD_BONUS = 1.5
const withBonus = (logProb: number, words: number) => logProb + WORD_BONUS * words

/** A word that may follow, and those of its tokens that are still to come. */
interface Continuation {
  readonly word: string
  readonly rest: readonly number[]
  readonly to: () => GrammarState
}

/** A text so far. `at` is set between words, `inside` within one, and neither after the full stop. */
interface Partial extends Row {
  readonly logProb: number
  readonly words: readonly string[]
  readonly at?: GrammarState
  readonly inside?: readonly Continuation[]
  readonly isAfterComma?: boolean
}

/** Complete texts with the natural logarithms of their probabilities; none where nothing that may be said was found. */
export async function likeliest(
  start: GrammarState,
  { tokens, step, longest }: TokenModel,
): Promise<ReadonlyMap<string, number>> {
  const found = new Map<string, number>()
  let live: readonly Partial[] = [{ from: 0, token: tokens.begin, logProb: 0, words: [], at: start }]
  for (let length = 0; length < longest && live.length > 0; length++) {
    const next = await step(live)
    const longer: Partial[] = []
    for (const [row, partial] of live.entries()) {
      const nextLogProb = next[row] as NextLogProb
      const { at, inside, words, logProb } = partial
      if (at || inside) longer.push(...continued(partial, row, nextLogProb, tokens))
      else {
        const text = words.join(' ')
        // The same words are found with commas and without.
        found.set(text, Math.max(found.get(text) ?? Number.NEGATIVE_INFINITY, logProb + nextLogProb(tokens.end)))
      }
    }
    const best = Math.max(...[...found].map(([text, logProb]) => withBonus(logProb, wordCount(text))))
    live = longer
      .sort((one, other) => other.logProb - one.logProb)
      .slice(0, ROWS)
      .filter(({ logProb, words }) => withBonus(logProb, words.length) > best - FAR)
  }
  return found
}

function continued(partial: Partial, row: number, nextLogProb: NextLogProb, tokens: WordTokens): Partial[] {
  const { at, words, logProb, isAfterComma } = partial
  const by = (token: number) => ({ from: row, token, logProb: logProb + nextLogProb(token), words })
  const isAfterWord = words.length > 0 && !isAfterComma
  const marks: Partial[] =
    at && isAfterWord ? [...(at.isFinal ? [by(tokens.stop)] : []), { ...by(tokens.comma), at, isAfterComma: true }] : []
  const insideWords = new Map<number, Continuation[]>()
  const afterWords: Partial[] = []
  for (const { word, rest, to } of at ? continuationsFrom(at, tokens, words.length === 0) : (partial.inside ?? [])) {
    const [token, ...later] = rest as [number, ...number[]]
    if (later.length === 0) afterWords.push({ ...by(token), words: [...words, word], at: to() })
    else insideWords.set(token, [...(insideWords.get(token) ?? []), { word, rest: later, to }])
  }
  return [...marks, ...afterWords, ...[...insideWords].map(([token, inside]) => ({ ...by(token), inside }))]
}

/** Of words that are written alike, the first. */
function continuationsFrom(at: GrammarState, tokens: WordTokens, isFirst: boolean): readonly Continuation[] {
  const byWriting = new Map<string, Continuation>()
  for (const [word, to] of at.next) {
    const rest = tokens.of(word, isFirst)
    const writing = rest.join(' ')
    if (!byWriting.has(writing)) byWriting.set(writing, { word, rest, to })
  }
  return [...byWriting.values()]
}
