/**
 * Whether words that were heard for a word item hang together. Narration that is bent onto the pack's
 * words comes out as many scraps; an answer, of any wording, is a few phrases.
 */

import { type KindSpec, kindOf } from '../kinds/kind.ts'
import type { Hearable, Talk, Vocabulary } from './hearable.ts'
import { isNumberWord } from './numberShapes.ts'
import { phrase } from './phrases.ts'
import { isSpelled, LETTERS, namesIn } from './spelling.ts'

/** The fewest phrases of the pack, or of the talk that has the floor, or single words, that a text is made of. 0 for none. */
export function pieceCount(vocabulary: Vocabulary, text: string, talk?: Talk): number {
  const { phrases, challenges, lists, others, commands } = vocabulary
  const known = new Set([phrases, challenges, lists, others, commands, talk?.phrases ?? [], talk?.others ?? []].flat())
  const words = text.split(' ').filter((word) => word !== '')
  const fewest = [0]
  for (let end = 1; end <= words.length; end++) {
    let best = (fewest[end - 1] ?? 0) + 1
    for (let begin = 0; begin < end - 1; begin++) {
      if (known.has(words.slice(begin, end).join(' '))) best = Math.min(best, (fewest[begin] ?? 0) + 1)
    }
    fewest.push(best)
  }
  return fewest[words.length] ?? 0
}

/** Words other than numbers and letters; a number or a route, however long, is one thing. */
function looseWordCount(text: string, spelled: ReadonlySet<string>): number {
  return text.split(' ').filter((word) => word !== '' && !isNumberWord(word) && !spelled.has(word)).length
}

/** Letters and designators, where values have them. */
function spelledWords(shapes: readonly KindSpec[]): ReadonlySet<string> {
  const words = shapes.flatMap(namesIn).flatMap((name) => name.split(' '))
  return new Set(shapes.some(isSpelled) ? [...LETTERS, ...words] : [])
}

/** True where what was heard for this item is more scraps than any answer to it has. */
export function isScraps(hearable: Hearable, vocabulary: Vocabulary, text: string): boolean {
  const values = hearable.shapes.length
  const pieces = pieceCount(vocabulary, text, hearable.talk)
  if (pieces <= 2) return false
  if (values === 0) return pieces > MOST_PIECES
  const words = looseWordCount(text, spelledWords(hearable.shapes))
  const isWithoutValue = words === text.split(' ').length && !hasNamedValue(hearable.shapes, text)
  return isWithoutValue || words > MOST_PIECES + 3 * values
}

/** Whether a value that is said by its name is in it: "east", "left". */
function hasNamedValue(shapes: readonly KindSpec[], text: string): boolean {
  const names = shapes.flatMap((shape) => Object.values(kindOf(shape).options?.(shape) ?? {}).flat())
  return names.some((name) => ` ${text} `.includes(` ${phrase(name)} `))
}

/** "Doors closed and locked, correction, open and locked" has four; scraps have more. */
const MOST_PIECES = 4
