/**
 * What a kind makes of the words taken for one figure. A kind gets the run of words that belongs to a value (number
 * words, signs, directions, units) and its spec, never the value: it says what was said, and others compare.
 */

import { type NumberReading, readNumber } from '../numbers/readings.ts'
import type { Token } from '../numbers/tokens.ts'
import type { Value } from './value.ts'

export type Lack = 'direction' | 'digits' | 'decimals'

export interface Reading {
  /** Where something lacks, what it would be without that: the size of a trim, the number of a runway. */
  readonly value: Value
  /** In the form that standard phraseology asks for. */
  readonly standard: boolean
  readonly lacks?: Lack
  /** Broken off behind the point. */
  readonly open?: boolean
  /** Digits as said, for kinds whose parts of a value are recognised by their digits. */
  readonly digits?: string
  /** Said in another unit than the figure has. */
  readonly otherUnit?: boolean
  /** Possible, but nobody's first understanding: never right, only doubtful. */
  readonly secondary?: boolean
  /** A value that no instrument of the kind can show. */
  readonly implausible?: boolean
  /** The end of a value, which may go with what was said in the breath before. */
  readonly tail?: boolean
  /** More digits than the kind has: wrong, and perhaps said twice. */
  readonly overlong?: boolean
}

/**
 * What was said of a value that is put together of several pieces: right, right as far as it goes, an end of its
 * digits (perhaps the rest was not heard), or something else.
 */
export type Match = 'same' | 'lacking' | 'part' | 'other'

/** What a word beside the digits does; `noun` names the kind and does nothing. */
export type Affix =
  | { readonly role: 'unit' }
  | { readonly role: 'otherUnit' }
  | { readonly role: 'noun' }
  | { readonly role: 'sign'; readonly sign: 1 | -1 }
  | { readonly role: 'direction'; readonly direction: string }
  | { readonly role: 'zero' }
  | { readonly role: 'letter'; readonly letter: string }
  /** Multiplies what was said before it: tonnes. */
  | { readonly role: 'thousands' }
  /** A word of a name that begins a value: a telephony designator. */
  | { readonly role: 'name' }
  /** Joins two pieces of a value, and counts only before one: "via", "at". */
  | { readonly role: 'joint'; readonly to: 'letter' | 'number' }
  | { readonly role: 'degrees' }
  | { readonly role: 'gust' }
  | { readonly role: 'variable' }

export type Affixes = ReadonlyMap<string, Affix>

export function affixTable(entries: readonly (readonly [Affix, readonly string[]])[]): Affixes {
  return new Map(entries.flatMap(([affix, words]) => words.map((word) => [word, affix] as const)))
}

export interface Run {
  readonly number: readonly Token[]
  readonly numbers: readonly NumberReading[]
  readonly signs: readonly (1 | -1)[]
  readonly directions: readonly string[]
  readonly unit: boolean
  readonly otherUnit: boolean
  readonly zero: boolean
  readonly thousands: boolean
}

/** Parts the words of a run by their roles; undefined where a word has none or the digits are not in one piece. */
export function partRun(tokens: readonly Token[], affixes: Affixes): Run | undefined {
  const number: Token[] = []
  const signs: (1 | -1)[] = []
  const directions: string[] = []
  let unit = false
  let otherUnit = false
  let zero = false
  let thousands = false
  let closed = false
  for (const token of tokens) {
    const affix = affixes.get(token.text)
    if (!affix) {
      if (!token.number && !joinsNumber(token)) return undefined
      if (closed) return undefined
      number.push(token)
      continue
    }
    if (number.length > 0) closed = true
    switch (affix.role) {
      case 'sign':
        // "five minus two" is no value.
        if (number.length > 0) return undefined
        signs.push(affix.sign)
        break
      case 'direction':
        directions.push(affix.direction)
        break
      case 'unit':
        unit = true
        break
      case 'otherUnit':
        otherUnit = true
        break
      case 'zero':
        zero = true
        break
      case 'thousands':
        thousands = true
        break
      default:
        break
    }
  }
  return { number, numbers: readNumber(number), signs, directions, unit, otherUnit, zero, thousands }
}

/** Words that only ever stand inside a number: "a hundred and twenty". */
export function joinsNumber(token: Token): boolean {
  return token.text === 'and' || token.text === 'a'
}

/** A number that was read as digits before and after the point, as an exact amount of 10^-decimals. */
export function amountOf(whole: string, fraction: string, decimals: number): number {
  return Number(`${whole === '' ? '0' : whole}${fraction.padEnd(decimals, '0')}`) / 10 ** decimals
}

/** True where zeros in front are no more than a value written with `width` digits has. */
export function zerosFit(whole: string, width: number): boolean {
  return !whole.startsWith('0') || whole === '0' || whole.length <= width
}
