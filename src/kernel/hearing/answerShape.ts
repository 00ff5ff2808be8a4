/**
 * Whether what was heard has the shape of an answer with values: as many numbers as are asked for, none longer than any
 * of its kind, and few words beside them. Other speech that is bent onto numbers comes out as many short ones or as a
 * long one. It knows kinds and counts, never a value, so nothing of it depends on being right (law 2).
 */

import { type KindSpec, kindOf } from '../kinds/kind.ts'
import { tokensOf } from '../numbers/tokens.ts'
import { withoutChallenge } from '../response/challenge.ts'
import { withCorrections } from '../response/corrections.ts'
import { HESITATIONS } from '../response/lexicon.ts'
import { numberRuns, type Run } from './completeness.ts'

/** "Nose up, set and checked" beside one value; two more for each further one. */
const MOST_WORDS = 5

/** False where it is more, or other, than any answer to these kinds is. True where no numbers are asked for or said. */
export function hasAnswerShape(shapes: readonly KindSpec[], challenge: string, text: string): boolean {
  const most = shapes.map((spec) => kindOf(spec).heard.mostDigits(spec))
  if (shapes.length === 0 || !most.every((digits) => digits !== undefined)) return true
  const heard = tokensOf(text).filter((token) => !HESITATIONS.has(token.text))
  const tokens = withCorrections(withoutChallenge(heard, tokensOf(challenge)), () => false)
  const numbers = numberRuns(tokens)
  if (numbers.length === 0) return true
  const corrections = tokens.filter((token) => token.text === 'correction').length
  const words = tokens.filter(({ number, text }) => !number && text !== 'and').length
  // A number that is said twice is one.
  const isFew = new Set(numbers.map(({ said }) => said)).size <= shapes.length * (1 + corrections)
  // Several values may come in a row: "one twenty four, one twenty eight".
  const longest = Math.max(...most) * Math.max(1, shapes.length - numbers.length + 1)
  return (
    isFew &&
    words <= MOST_WORDS + 2 * (shapes.length - 1) + 2 * corrections &&
    numbers.every((number) => isOneNumber(number, longest))
  )
}

/** With "hundred" and "thousand" in it, it must go as such numbers go. */
const GROUPED = /^(?:(?:d{1,3}|e|yd?|dh(?:yd?|e|d)?)k)?(?:(?:d|e|yd?)?h)?(?:yd?|e|d{0,3})(?:\.d*)?$/

function isOneNumber({ signs, digits }: Run, longest: number): boolean {
  if (signs.includes('r')) return true
  return /[hk]/.test(signs) ? GROUPED.test(signs) : digits <= longest
}
