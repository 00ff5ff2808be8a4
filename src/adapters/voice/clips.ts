/**
 * Which recorded clips make up a sentence: the fewest that cover all its words. A sentence with a word that has
 * no clip has none at all, for with a word left out it may say something else.
 */

import { sayCardinal, sayDigits } from '../../kernel/numbers/say.ts'

/** Text in plain words -> where its clip is in the recording: [begin, length] in milliseconds. */
export type ClipIndex = Readonly<Record<string, readonly [beginMs: number, lengthMs: number]>>

export interface Clip {
  readonly beginMs: number
  readonly lengthMs: number
  /** Silence after it. */
  readonly pauseMs: number
}

export const PAUSE_MS = { word: 45, comma: 140, sentence: 320 } as const

/** The words of a text, lower case; numbers in figures become words. */
export function plainWords(text: string): string[] {
  return (
    text
      .toLowerCase()
      .replaceAll('’', "'")
      // A minus sign before a figure is a word, not punctuation.
      .replace(/(^|\s)[-−](?=\d)/g, '$1minus ')
      .split(/[\s,;:?!"()/-]+|\.(?!\d)/)
      .flatMap((part) => part.match(/\d+(?:\.\d+)?|[^\d]+/g) ?? [])
      .flatMap((part) => (/^\d/.test(part) ? numberWords(part).split(' ') : [part]))
  )
}

/** "10" is ten, "128" one two eight, "5.2" five point two: always the same number as written. */
function numberWords(figures: string): string {
  const [whole = '', fraction] = figures.split('.')
  const head = /^[1-9]?\d$/.test(whole) && fraction === undefined ? sayCardinal(Number(whole)) : sayDigits(whole)
  return fraction === undefined ? head : `${head} point ${sayDigits(fraction)}`
}

/**
 * Sentence by sentence: the clips that make it up, or, where a word has none, the words of all of it as a synthesiser is to
 * say them. Nothing to say has no sentences.
 */
export function sentencesOf(text: string, index: ClipIndex): readonly (readonly Clip[] | string)[] {
  return text
    .split(/(?<=[.?!])\s+/)
    .map((sentence) =>
      sentence
        .split(/[,;:]\s+/)
        .map(plainWords)
        .filter(({ length }) => length > 0),
    )
    .filter(({ length }) => length > 0)
    .map((parts) => clipsOf(parts, index) ?? parts.map((words) => words.join(' ')).join(', '))
}

/** Clips in order; undefined where a word has none, or where there is nothing to say. */
export function clipsFor(text: string, index: ClipIndex): readonly Clip[] | undefined {
  const sentences = sentencesOf(text, index)
  const clips = sentences.flatMap((sentence) => (typeof sentence === 'string' ? [] : [sentence]))
  return clips.length > 0 && clips.length === sentences.length ? clips.flat() : undefined
}

/** Of a sentence in parts between its commas. */
function clipsOf(parts: readonly (readonly string[])[], index: ClipIndex): readonly Clip[] | undefined {
  const words = parts.flat()
  const commas = new Set(parts.map((_, at) => parts.slice(0, at + 1).flat().length))
  return fewest(words, index)?.map(([from, to]) => {
    const [beginMs, lengthMs] = index[words.slice(from, to).join(' ')] ?? [0, 0]
    const pauseMs = to === words.length ? PAUSE_MS.sentence : commas.has(to) ? PAUSE_MS.comma : PAUSE_MS.word
    return { beginMs, lengthMs, pauseMs }
  })
}

type Span = readonly [from: number, to: number]

/** From the end backwards: the fewest spans that cover all words from each place on; on a tie the longest first one. */
function fewest(words: readonly string[], index: ClipIndex): readonly Span[] | undefined {
  const best: (readonly Span[] | undefined)[] = []
  best[words.length] = []
  for (let from = words.length - 1; from >= 0; from--) {
    for (let to = words.length; to > from; to--) {
      const rest = best[to]
      if (!rest || !Object.hasOwn(index, words.slice(from, to).join(' '))) continue
      const found = best[from]
      if (!found || rest.length + 1 < found.length) best[from] = [[from, to], ...rest]
    }
  }
  return best[0]
}
