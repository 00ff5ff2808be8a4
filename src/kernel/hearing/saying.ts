/**
 * Whether words that were heard for a word item hang together. Narration that is bent onto the pack's
 * words comes out as many scraps; an answer, of any wording, is a few phrases.
 */

import type { KindSpec } from '../kinds/kind.ts'
import type { Hearable, Vocabulary } from './hearable.ts'
import { CLASSES, isNumberWord, numberShapes } from './numberShapes.ts'
import { isOneNumber, isSpelled, LETTERS, namesIn } from './spelling.ts'

/** The fewest phrases of the pack, or single words, that a text is made of. 0 for none. */
export function pieceCount(vocabulary: Vocabulary, text: string): number {
  const { phrases, challenges, lists, others, commands } = vocabulary
  const known = new Set([phrases, challenges, lists, others, commands].flat())
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
  if (pieceCount(vocabulary, text) <= 2) return false
  if (values === 0) return pieceCount(vocabulary, text) > MOST_PIECES
  const words = looseWordCount(text, spelledWords(hearable.shapes))
  const isWithoutNumber = words === text.split(' ').length
  return isWithoutNumber || words > MOST_PIECES + 3 * values
}

/** "Doors closed and locked, correction, open and locked" has four; scraps have more. */
const MOST_PIECES = 4

const SIGN_OF: ReadonlyMap<string, string> = new Map(
  Object.entries(CLASSES).flatMap(([sign, members]) => members.map((word) => [word, sign] as const)),
)

/**
 * True where a number was heard that is no value of the item's kinds, nor, codes aside, the beginning of one: a digit too many,
 * or digits and tens in an order that nobody says. That is a mishearing more often than an answer.
 */
export function isOutOfShape(hearable: Hearable, vocabulary: Vocabulary, text: string): boolean {
  // Letters and names have no number's shape, and talk has any.
  if (hearable.shapes.length === 0 || hearable.talk || !hearable.shapes.every(isOneNumber)) return false
  const echo = vocabulary.challenges.find((challenge) => text.startsWith(`${challenge} `))
  const said = text.slice(echo?.length ?? 0).replace(SPEED_LABELS, ' | ')
  const shapes = [...new Set(hearable.shapes.flatMap(numberShapes))]
  // Of a code's digits one is lost more often than left out.
  const isCode = hearable.shapes.some(({ kind }) => kind === 'digits' || kind === 'time' || kind === 'altimeter')
  const runs = said.split(' ').map((word) => SIGN_OF.get(word) ?? ' ')
  return runs
    .join('')
    .split(/ +/)
    .some((run) => !isMadeOf(run, shapes, hearable.shapes.length, isCode))
}

/** "V one" and "V two" name a speed; their numbers are no part of it. */
const SPEED_LABELS = /\bv (one|two)\b/g

/** Whether signs are at most `most` whole shapes in a row, the last of them, unless `whole`, perhaps not finished. */
function isMadeOf(run: string, shapes: readonly string[], most: number, whole: boolean): boolean {
  if (run === '' || run === 'n') return true
  if (most === 0) return false
  return shapes.some(
    (shape) =>
      (!whole && shape.startsWith(run)) ||
      (run.startsWith(shape) && isMadeOf(run.slice(shape.length), shapes, most - 1, whole)),
  )
}
