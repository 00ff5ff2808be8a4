/**
 * How numbers may be spoken: digits and number words in any combination, never a list of values. A
 * kind's shapes say how many of them go together (`kinds/shapes.ts`); plausibility is judged afterwards. Units and
 * directions are ordinary words beside them. Letters and names that are part of a value have signs of their own.
 */

import { type KindSpec, kindOf } from '../kinds/kind.ts'
import { DIGIT_WORDS, TEEN_WORDS, TENS_WORDS } from '../numbers/words.ts'

/**
 * Classes of number words, by their sign in a shape. "tree" and "fower" are left out on purpose: with
 * them in, "two" and "oh" are heard as them more often than they help (measured on human digit strings).
 */
export const CLASSES = {
  d: [...DIGIT_WORDS, 'oh', 'niner', 'fife'],
  e: TEEN_WORDS,
  y: TENS_WORDS,
  '.': ['point', 'decimal'],
  h: ['hundred'],
  k: ['thousand'],
  r: ['double', 'triple'],
  n: ['and'],
} as const satisfies Readonly<Record<string, readonly string[]>>
export type ClassSign = keyof typeof CLASSES

/** Sequences of class signs that a value of this kind may be said in; empty where it holds no number. */
export function numberShapes(spec: KindSpec): readonly string[] {
  return kindOf(spec).heard.shapes(spec)
}

/** Words that go with a value of this kind: a unit, a direction, the names of a choice. */
export function valueWords(spec: KindSpec): readonly string[] {
  const { heard, options } = kindOf(spec)
  return [...heard.before, ...heard.behind, ...(options ? optionWords(Object.values(options(spec)).flat()) : [])]
}

function optionWords(ways: readonly string[]): string[] {
  return ways.flatMap((way) => way.toLowerCase().split(/[^a-z']+/)).filter((word) => word !== '' && !isNumberWord(word))
}

export const NUMERALS: ReadonlySet<string> = new Set(Object.values(CLASSES).flat())
export const isNumberWord = (word: string): boolean => NUMERALS.has(word) && word !== 'and'
