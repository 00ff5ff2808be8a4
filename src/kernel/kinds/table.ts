/** What the house does with values of any kind: reading, saying, showing, comparing. Each asks the kind. */

import type { Token } from '../numbers/tokens.ts'
import type { Seeded } from '../seeded.ts'
import { type Figure, type KindSpec, kindOf } from './kind.ts'
import type { Radio } from './radio.ts'
import type { Affixes, Reading } from './reading.ts'
import type { Phraseology, ScaleEnds, Value } from './value.ts'

/** Every reading of a run of words as a value of the kind; empty where it is none. */
export function readValue(tokens: readonly Token[], spec: KindSpec): readonly Reading[] {
  return kindOf(spec).read(tokens, spec)
}

/** Words that may stand beside the digits of the kind. */
export function affixesOf(spec: KindSpec): Affixes {
  return kindOf(spec).affixes(spec)
}

/** True where the word can be part of a value of the kind, number words aside. */
export function isValueWord(token: Token, spec: KindSpec): boolean {
  return affixesOf(spec).has(token.text) || isOwnWord(token, spec)
}

/** True where the word is, or is part of, a value by itself: an option's name. */
export function isOwnWord(token: Token, spec: KindSpec): boolean {
  return kindOf(spec).isOwnWord?.(token, spec) ?? false
}

/** The value's spoken words, digits as words: never digits. */
export function sayValue(figure: Figure, phraseology: Phraseology): string {
  return kindOf(figure).say(figure.value, figure, phraseology)
}

/**
 * The value's words in standard phraseology, without its name ("QNH", "altimeter"). Sources: ICAO Annex 10 volume II
 * 5.2.1.4, FAA AIM 4-2-8 to 4-2-11, grouped flight numbers JO 7110.65 2-4-20 (all looked up); FAA winds JO 7110.65
 * 2-4-17 (from memory).
 */
export function sayOnRadio(figure: Figure, radio: Radio): string {
  const own = kindOf(figure).sayOnRadio?.(figure.value, figure, radio)
  if (own !== undefined) return own
  const words = sayValue(figure, 'standard')
  return radio === 'faa' ? words.replace(/\bdecimal\b/g, 'point') : words
}

/** Another value of the same shape, as a controller's slip has it; undefined for kinds that nobody mistakes so. */
export function plausibleMistake(spec: KindSpec, value: Value, chance: Seeded): Value | undefined {
  return kindOf(spec).mistake(value, spec, chance)
}

/** The value as the screen shows it: "5.2 up", "1013", "27L". */
export function showValue(figure: Figure): string {
  return kindOf(figure).show(figure.value, figure)
}

export function isNumeric(spec: KindSpec): boolean {
  return kindOf(spec).values === 'numbers'
}

/** True where a value is put together of several pieces, each of which may be wrong or left out. */
export function isComposed(spec: KindSpec): boolean {
  return kindOf(spec).match !== undefined
}

/** The digits of a value as they are said, all of them. */
export function digitsSaid(spec: KindSpec, value: Value): string {
  const kind = kindOf(spec)
  const isAmount = typeof value === 'number' && kind.values === 'numbers'
  return isAmount ? kind.digits(value, spec) : String(value).replace(/\D/g, '')
}

/** The instrument's scale: the pack's, or the kind's; undefined for kinds without one. */
export function scaleOf(spec: KindSpec): ScaleEnds | undefined {
  const kind = kindOf(spec)
  return kind.values === 'numbers' ? kind.scale(spec) : undefined
}

/** A number that went past the end of a scale that goes round, as it is there. */
export function wrapped(spec: KindSpec, value: number): number {
  const kind = kindOf(spec)
  return kind.values === 'numbers' && kind.wrapped ? kind.wrapped(value) : value
}

/** True where both values are spoken alike. */
export function isSameValue(spec: KindSpec, a: Value, b: Value): boolean {
  const kind = kindOf(spec)
  if (kind.values === 'text') return kind.canonical(a, spec) === kind.canonical(b, spec)
  const decimals = kind.precision(spec)
  return spoken(a, decimals) === spoken(b, decimals)
}

/** Half of the last digit that any kind says. */
const DUST = 5e-7

/** True where the value that was read is exactly the figure as it is spoken: nothing of it is rounded away. */
export function isExactly(spec: KindSpec, read: Value, expected: Value): boolean {
  const kind = kindOf(spec)
  if (kind.values === 'text') return isSameValue(spec, read, expected)
  return typeof read === 'number' && Math.abs(read - spoken(expected, kind.precision(spec))) < DUST
}

const spoken = (value: Value, decimals: number) => Number(Number(value).toFixed(decimals))
