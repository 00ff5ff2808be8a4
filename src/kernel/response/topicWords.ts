/** The words that name a topic of a briefing: those before each of its figures, the names of a choice, or all of it. */

import type { Specs } from '../kinds/kind.ts'
import { tokensOf } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import { phrasesOf } from './expansion.ts'
import { HARMLESS } from './lexicon.ts'
import type { FigureSlot, Path } from './path.ts'
import type { Response } from './response.ts'

export interface Keyword {
  /** Place of the topic. */
  readonly topic: number
  readonly words: readonly string[]
  /** The way to say the topic that it belongs to. */
  readonly response: Response
  readonly hasFigures: boolean
  /** All words of that way. */
  readonly own: ReadonlySet<string>
}

export function keywordsOf(topic: number, response: Response, specs: Specs): Keyword[] {
  const { paths } = response
  const hasFigures = response.figures.length > 0
  const phrases = hasFigures
    ? paths.flatMap((path) => path.flatMap((slot, index) => (slot.type === 'figure' ? before(path, index, specs) : [])))
    : wordsIn(phrasesOf(response.tree))
  const own = new Set(
    paths
      .flat()
      .flatMap((slot) => (slot.type === 'word' ? slot.wordings : slot.labels))
      .flatMap(({ words }) => words),
  )
  return phrases.map((words) => ({ topic, words, response, hasFigures, own }))
}

/** The label of a figure, else a word that must be said before it, else its own names. */
function before(path: Path, index: number, specs: Specs): (readonly string[])[] {
  const slot = path[index] as FigureSlot
  const says = (words: readonly string[]) => words.some((word) => !HARMLESS.has(word))
  const labels = slot.labels.map(({ words }) => words).filter(says)
  if (labels.length > 0) return labels
  const leads = path.slice(0, index).flatMap((one) => (one.type === 'word' && one.required ? one.wordings : []))
  const leading = leads.map(({ words }) => words).filter(says)
  if (leading.length > 0) return leading
  const spec = ownOf(specs, slot.figure)
  return spec?.kind === 'choice' ? wordsIn(Object.values(spec.options).flat()) : []
}

const wordsIn = (texts: readonly string[]) =>
  texts.filter((text) => text !== '').map((text) => tokensOf(text).map((token) => token.text))
