/**
 * What the weigher itself hears, within what may be said to an item: the likeliest texts, by a beam over the pieces that
 * words are written with. Pure: the model is handed in.
 */

import type { GrammarState } from '../../../kernel/hearing/grammarWalk.ts'
import { wordsIn } from './hypothesis.ts'

/** Natural logarithm of a piece's probability to come next. */
export type NextPiece = (piece: number) => number

/** Goes on from one of the rows before with one more piece. */
export interface Row {
  readonly from: number
  readonly piece: number
}

export interface WordPieces {
  readonly begin: number
  readonly end: number
  readonly stop: number
  readonly comma: number
  /** Of a word as it stands at the beginning, or behind another. */
  of(word: string, isFirst: boolean): readonly number[]
}

export interface Beam {
  readonly pieces: WordPieces
  readonly go: (rows: readonly Row[]) => Promise<readonly NextPiece[]>
  /** No text has more pieces. */
  readonly longest: number
}

/** Chosen on the tuning set: two rows lose rivals, and what is so far behind a whole text never wins, in nats. */
const ROWS = 3
const FAR = 4.5
/** What each further word makes up for, in nats: a text with fewer of them is likelier from the first. */
const A_WORD = 1.5
const inProportion = (weight: number, words: number) => weight + A_WORD * words

interface Way {
  readonly word: string
  readonly rest: readonly number[]
  readonly to: () => GrammarState
}
/** So far; `at` is set between words, `ways` inside one, and neither behind the full stop. */
interface Hypothesis extends Row {
  readonly weight: number
  readonly said: readonly string[]
  readonly at?: GrammarState
  readonly ways?: readonly Way[]
  readonly isBehindComma?: boolean
}

/** Whole texts with the natural logarithms of their probabilities; none where nothing that may be said was found. */
export async function likeliest(
  start: GrammarState,
  { pieces, go, longest }: Beam,
): Promise<ReadonlyMap<string, number>> {
  const found = new Map<string, number>()
  let live: readonly Hypothesis[] = [{ from: 0, piece: pieces.begin, weight: 0, said: [], at: start }]
  for (let length = 0; length < longest && live.length > 0; length++) {
    const next = await go(live)
    const longer: Hypothesis[] = []
    for (const [row, hypothesis] of live.entries()) {
      const likely = next[row] as NextPiece
      const { at, ways, said, weight } = hypothesis
      if (at || ways) longer.push(...goneOn(hypothesis, row, likely, pieces))
      else {
        const text = said.join(' ')
        // The same words are found with commas and without.
        found.set(text, Math.max(found.get(text) ?? Number.NEGATIVE_INFINITY, weight + likely(pieces.end)))
      }
    }
    const best = Math.max(...[...found].map(([text, weight]) => inProportion(weight, wordsIn(text))))
    live = longer
      .sort((one, other) => other.weight - one.weight)
      .slice(0, ROWS)
      .filter(({ weight, said }) => inProportion(weight, said.length) > best - FAR)
  }
  return found
}

function goneOn(from: Hypothesis, row: number, likely: NextPiece, pieces: WordPieces): Hypothesis[] {
  const { at, said, weight, isBehindComma } = from
  const by = (piece: number) => ({ from: row, piece, weight: weight + likely(piece), said })
  const isBehindWord = said.length > 0 && !isBehindComma
  const marks: Hypothesis[] =
    at && isBehindWord
      ? [...(at.isFinal ? [by(pieces.stop)] : []), { ...by(pieces.comma), at, isBehindComma: true }]
      : []
  const inWords = new Map<number, Way[]>()
  const behindWords: Hypothesis[] = []
  for (const { word, rest, to } of at ? waysFrom(at, pieces, said.length === 0) : (from.ways ?? [])) {
    const [piece, ...later] = rest as [number, ...number[]]
    if (later.length === 0) behindWords.push({ ...by(piece), said: [...said, word], at: to() })
    else inWords.set(piece, [...(inWords.get(piece) ?? []), { word, rest: later, to }])
  }
  return [...marks, ...behindWords, ...[...inWords].map(([piece, ways]) => ({ ...by(piece), ways }))]
}

/** Of words that are written alike the first counts. */
function waysFrom(at: GrammarState, pieces: WordPieces, isFirst: boolean): readonly Way[] {
  const byWriting = new Map<string, Way>()
  for (const [word, to] of at.next) {
    const rest = pieces.of(word, isFirst)
    const writing = rest.join(' ')
    if (!byWriting.has(writing)) byWriting.set(writing, { word, rest, to })
  }
  return [...byWriting.values()]
}
