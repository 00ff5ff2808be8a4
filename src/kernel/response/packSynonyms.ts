/**
 * An author's own words, besides those of the trade (`synonyms.ts`): what is said in place of a word on the pack's cards.
 * Within a line each means the same, wherever a response has one of them. The opposites of one are opposites of all.
 */

import type { Expansion } from './expansion.ts'
import { opposites } from './lexicon.ts'

/** A word of the cards -> what is said for it; small letters, several words with a space between. */
export type Synonyms = Readonly<Record<string, readonly string[]>>
export const NO_SYNONYMS: Synonyms = {}

export const isEmpty = (synonyms: Synonyms): boolean => Object.keys(synonyms).length === 0

type Line = readonly string[]
export const linesOf = (synonyms: Synonyms): readonly Line[] =>
  Object.entries(synonyms).map(([word, others]) => [word, ...others])

/** The same with each of its words in every way it may be said; its own words come first. */
export function withSynonyms(tree: Expansion, synonyms: Synonyms): Expansion {
  const lines = linesOf(synonyms)
  return lines.length === 0 ? tree : extended(tree, lines)
}

function extended(node: Expansion, lines: readonly Line[]): Expansion {
  switch (node.type) {
    case 'figure':
      return node
    case 'optional':
      return { ...node, part: extended(node.part, lines) }
    case 'sequence':
      return { ...node, parts: node.parts.map((part) => extended(part, lines)) }
    case 'either':
      return { ...node, options: node.options.map((option) => extended(option, lines)) }
    case 'words': {
      const { words, tag } = node
      const parts = partsOf(words, lines)
      if (parts.every(({ length }) => length === 1)) return node
      const ways = parts.map((texts): Expansion => {
        const options = texts.map((text): Expansion => ({ type: 'words', words: text.split(' ') }))
        return options.length === 1 ? (options[0] as Expansion) : { type: 'either', options }
      })
      const named = tag === undefined ? {} : { tag }
      const [only] = ways
      return ways.length === 1 && only?.type === 'either'
        ? { ...only, ...named }
        : { type: 'either', options: [{ type: 'sequence', parts: ways }], ...named }
    }
  }
}

/** A phrase cut where it can be said otherwise: the ways to say each piece, its own first. */
function partsOf(words: readonly string[], lines: readonly Line[]): readonly (readonly string[])[] {
  const parts: (readonly string[])[] = []
  for (let at = 0; at < words.length; ) {
    const found = lines
      .flatMap((line) => line.map((text) => ({ line, text, length: lengthAt(words, at, text) })))
      .reduce<{ line: Line; text: string; length: number } | undefined>(
        (best, one) => (one.length > (best?.length ?? 0) ? one : best),
        undefined,
      )
    if (found) parts.push([found.text, ...found.line.filter((text) => text !== found.text)])
    else parts.push([words[at] ?? ''])
    at += found?.length ?? 1
  }
  return parts
}

/** How many words of a phrase are this text from `at` on. */
function lengthAt(words: readonly string[], at: number, text: string): number {
  const wanted = text.split(' ')
  return wanted.every((word, index) => words[at + index] === word) ? wanted.length : 0
}

/** A name as it is called too: "code" for "squawk". */
export const alsoNamed = (name: string, synonyms: Synonyms): readonly string[] =>
  linesOf(synonyms)
    .filter((line) => line.includes(name.toLowerCase()))
    .flat()
    .filter((text) => text !== name.toLowerCase())

/** Each state in its synonyms too, and what the author says for a word that excludes one of these. */
export function statesWith(
  states: readonly (readonly string[])[],
  words: Iterable<string>,
  synonyms: Synonyms,
): readonly (readonly string[])[] {
  const lines = linesOf(synonyms)
  if (lines.length === 0) return states
  const own = states.map((state) => [
    ...new Set([...state, ...lines.filter((line) => line.some((text) => state.includes(text))).flat()]),
  ])
  const excluded = new Set([...words].flatMap((word) => [...opposites(word)]))
  const named = new Set(own.flat())
  const against = lines.filter(
    (line) => line.some((text) => excluded.has(text)) && !line.some((text) => named.has(text)),
  )
  return [...own, ...against]
}
