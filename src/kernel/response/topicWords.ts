/** The words that name a topic of a briefing: those before each of its figures, the names of a choice, or all of it. */

import { kindOf, type Specs } from '../kinds/kind.ts'
import { soundOf, tokensOf } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import { phrasesOf } from './expansion.ts'
import { HARMLESS } from './lexicon.ts'
import { madeOnce } from './memo.ts'
import { type FigureSlot, type Path, type Phrase, phraseOf } from './path.ts'
import type { Response } from './response.ts'

export interface Keyword {
  /** Place of the topic. */
  readonly topic: number
  /** Words of a value as they sound, others as they are. */
  readonly words: readonly string[]
  readonly isValue: boolean
  /** The way to say the topic that it belongs to. */
  readonly response: Response
  readonly hasFigures: boolean
  /** All words of that way. */
  readonly own: ReadonlySet<string>
}

export const keywordsOf = (topic: number, response: Response, specs: Specs): Keyword[] =>
  keywordsIn(response, specs).map((keyword) => ({ topic, ...keyword }))

type Naming = Pick<Keyword, 'words' | 'isValue'>

const keywordsIn = madeOnce((response, specs): Omit<Keyword, 'topic'>[] => {
  const { paths } = response
  const hasFigures = response.figures.length > 0
  const phrases = hasFigures
    ? paths.flatMap((path) => path.flatMap((slot, index) => (slot.type === 'figure' ? before(path, index, specs) : [])))
    : plain(
        phrasesOf(response.tree)
          .filter((text) => text !== '')
          .map(phraseOf),
      )
  const own = new Set(
    paths
      .flat()
      .flatMap((slot) => (slot.type === 'word' ? slot.wordings : slot.labels))
      .flatMap(({ words }) => words),
  )
  return phrases.map((phrase) => ({ ...phrase, response, hasFigures, own }))
})

const plain = (phrases: readonly Phrase[]): Naming[] => phrases.map(({ words }) => ({ words, isValue: false }))

/** The label of a figure, else a word that must be said before it, else the names of its values. */
function before(path: Path, index: number, specs: Specs): Naming[] {
  const slot = path[index] as FigureSlot
  const telling = (phrases: readonly Phrase[]) =>
    plain(phrases.filter(({ words }) => words.some((word) => !HARMLESS.has(word))))
  const labels = telling(slot.labels)
  if (labels.length > 0) return labels
  const leading = telling(
    path.slice(0, index).flatMap((one) => (one.type === 'word' && one.required ? one.wordings : [])),
  )
  if (leading.length > 0) return leading
  const spec = ownOf(specs, slot.figure)
  const options = spec && kindOf(spec).options?.(spec)
  return Object.values(options ?? {})
    .flat()
    .map((text) => ({ words: tokensOf(text).map(soundOf), isValue: true }))
}
