/**
 * How numbers may be spoken: digits and number words in any combination, never a list of values. A
 * kind's shape says how many of them go together; plausibility is judged afterwards. Units and directions
 * are ordinary words beside them. Letters and names that are part of a value have their own signs: `spelling.ts`.
 */

import type { KindSpec } from '../kinds/kind.ts'
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

/** Two digits: singly, a teen, tens, tens and a digit. */
const TWIN = ['dd', 'e', 'y', 'yd']
const PAIR = ['e', 'y', 'yd']
/** 0 to 999: digits, "twenty six", "one twenty eight", "one hundred [and] twenty eight". */
const WHOLE = [
  'd',
  ...TWIN,
  'ddd',
  'de',
  'dy',
  'dyd',
  'dh',
  ...['', 'n'].flatMap((and) => after(`dh${and}`, ['d', ...PAIR])),
]
const THOUSANDS = after(['d', ...TWIN], ['k', 'kdh', 'kddd', 'khd'])

function after(heads: string | readonly string[], tails: readonly string[]): string[] {
  return [heads].flat().flatMap((head) => tails.map((tail) => head + tail))
}
const digits = (count: number) => 'd'.repeat(count)

/** Sequences of class signs that a value of this kind may be said in; empty where it holds no number. */
export function numberShapes(spec: KindSpec): readonly string[] {
  switch (spec.kind) {
    case 'decimal':
      return [...fraction(spec.decimals, ['d', ...TWIN, 'ddd']), ...TWIN]
    case 'trim':
      return [...fraction(spec.decimals, ['d', ...TWIN]), 'd']
    case 'integer':
    case 'speed':
    case 'temperature':
      return WHOLE
    case 'weight':
      return [...WHOLE, ...THOUSANDS, 'dddd', 'ddddd', ...after(['d', ...TWIN], ['.d', '.dd', '.dk'])]
    case 'digits':
      return digitStrings(spec.length)
    case 'altimeter':
      return ['ddd', ...digitStrings(4), ...after(TWIN, after('.', TWIN))]
    case 'heading':
      return ['ddd', 'de', 'dy', 'dyd']
    case 'runway':
      return ['d', ...TWIN]
    case 'altitude':
      return [...THOUSANDS, 'dh', 'ddd', 'dddd', 'ddddd']
    case 'flightLevel':
      return ['ddd', 'dh']
    case 'frequency':
      return after(['ddd', 'de', 'dy', 'dyd'], ['.d', '.dd', '.ddd', '.e', '.y', '.yd'])
    case 'time':
      return digitStrings(4)
    case 'identifier':
      return spec.form === 'letter' ? ['l'] : ['l', 'll', ...after(['l', 'll', ''], NUMBERED), 'ldl']
    case 'callsign':
      return ['C']
    case 'wind':
      return ['W']
    case 'route':
      return ['R']
    case 'choice':
      return ['d', ...TWIN]
    default:
      return spec satisfies never
  }
}

function fraction(decimals: number, wholes: readonly string[]): string[] {
  if (decimals === 0) return [...wholes]
  return after(after(wholes, ['.']), decimals === 2 ? TWIN : [digits(decimals)])
}

/** After a letter: A3, A12. */
const NUMBERED = ['d', ...TWIN]

function digitStrings(length: number): string[] {
  if (length !== 4) return [digits(length)]
  return [...after(TWIN, TWIN), 'dk', 'eh', 'rddd', 'drdd', 'ddrd', 'rdrd', 'rdd', 'drd']
}

/** Words that go with a value of this kind. */
export function valueWords(spec: KindSpec): readonly string[] {
  switch (spec.kind) {
    case 'decimal':
      return ['percent', 'minus']
    case 'trim':
      return ['up', 'down', 'left', 'right', 'nose', 'units', 'neutral', 'minus']
    case 'integer':
      return ['minus']
    case 'speed':
      return ['knots']
    case 'weight':
      return ['kilos', 'kilograms', 'pounds', 'tons']
    case 'temperature':
      return ['minus', 'plus', 'degrees', 'celsius', 'fahrenheit']
    case 'digits':
      return ['squawk', 'squawking']
    case 'altimeter':
      return ['hectopascals', 'millibars', 'inches', 'standard']
    case 'heading':
      return ['degrees', 'heading']
    case 'runway':
      return ['runway', 'left', 'right', 'center']
    case 'altitude':
      return ['feet']
    case 'flightLevel':
      return ['flight', 'level']
    case 'frequency':
      return []
    case 'time':
      return ['zulu', 'hours']
    case 'identifier':
      return ['information', 'taxiway', 'stand', 'gate']
    case 'callsign':
      return []
    case 'wind':
      return ['wind', 'degrees', 'at', 'knots', 'gusting', 'gusts', 'variable', 'calm']
    case 'route':
      return ['via', 'taxiway', 'then', 'and']
    case 'choice':
      return Object.values(spec.options)
        .flat()
        .flatMap((way) => way.toLowerCase().split(/[^a-z']+/))
        .filter((word) => word !== '' && !isNumberWord(word))
    default:
      return spec satisfies never
  }
}

export const NUMERALS: ReadonlySet<string> = new Set(Object.values(CLASSES).flat())
export const isNumberWord = (word: string): boolean => NUMERALS.has(word) && word !== 'and'
