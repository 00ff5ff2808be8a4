/**
 * What a kind is made of. A kind is a sort of value that can be said: a trim, a speed, a runway. Each has one file with
 * one object that holds all of it; the house asks the object (`kindOf`) and knows no kind by name. What holds for
 * several kinds is shared as functions, but each kind's object names it. A member that may be left out is for few kinds.
 */

import type { Rule } from '../grammarRules.ts'
import type { Token } from '../numbers/tokens.ts'
import type { Seeded } from '../seeded.ts'
import type { Unit } from '../units.ts'
import type { FieldsOf } from './fields.ts'
import type { Radio } from './radio.ts'
import type { Affixes, Match, Reading } from './reading.ts'
import type { Phraseology, ScaleEnds, Value } from './value.ts'

/** `S` is the kind's spec: what shape a value has, never the value itself. */
export type KindDefinition<S> = NumberKind<S> | TextKind<S>

interface Kind<S> {
  /** The fields of the spec. */
  readonly fields: FieldsOf<S>
  /** Beyond the fields' own shapes: a field that is wrong, and what it should hold; undefined where nothing is. */
  specFault?(spec: S): { readonly field: string; readonly should: string } | undefined

  /** Words that may stand beside the digits of a value, each with what it does. */
  affixes(spec: S): Affixes
  /** Names of such a value as pilots say them before it. */
  readonly nouns: readonly string[]
  /** Whether a word is, or is part of, a value by itself and is no number: an option's name. */
  isOwnWord?(token: Token, spec: S): boolean
  /** Every reading of a run of words as a value; empty where it is none. */
  read(tokens: readonly Token[], spec: S): readonly Reading[]
  /** The spoken words, digits as words. */
  say(value: Value, spec: S, phraseology: Phraseology): string
  /** As a station says it, where that is not `say` in standard phraseology with FAA's "point". */
  sayOnRadio?(value: Value, spec: S, radio: Radio): string
  /** As the screen shows it. */
  show(value: Value, spec: S): string

  /** What is listened for. */
  readonly heard: Heard<S>
  /** One end of the digits of a value, said alone, is perhaps all that was heard of it: asked for again. */
  readonly mayBeCutShort: boolean
  /** Where digits are missing: whether what was said is right as far as it goes. Never, where this is left out. */
  isRightSoFar?(said: Value, expected: Value): boolean
  /** Whether a number said with fewer decimals is whole where the rest are zeros: "twenty-six" is all of 26.0. */
  zerosMayLack?(said: number): boolean
  /** For values with a direction or a side. */
  readonly direction?: Direction
  /** For values of several pieces, each of which may be wrong or left out: what was said against the value in force. */
  match?(reading: Reading, expected: Value, spec: S): Match
  /** Where every value has a name: value -> every way to say it. */
  options?(spec: S): Readonly<Record<string, readonly string[]>>
  /** Names that a value may begin with. */
  names?(spec: S): readonly string[]

  /** Another value of the same shape, as a slip of a controller has it; undefined for what nobody mistakes so. */
  mistake(value: Value, spec: S, chance: Seeded): Value | undefined
  /** To be read back where a station says it: ICAO Doc 4444, 4.5.7.5.1, and frequencies as in CAP 413. */
  readonly isReadBack: boolean
}

/** Values are numbers: rounded to a step, on a scale, with a unit. */
export interface NumberKind<S> extends Kind<S> {
  readonly values: 'numbers'
  readonly measure: Measure<S>
  /** The instrument's scale: wide, since it serves every instrument of the kind, unless the pack narrows it. */
  scale(spec: S): ScaleEnds
  /** Ends that no value passes, whatever the instrument; a pack may set others. */
  readonly bounds?: { readonly min?: number; readonly max?: number }
  /** For values that go round: 361 is heading 001. */
  wrapped?(value: number): number
  /** Several in a row are said with equally many digits: "one two eight one three one" are two speeds. */
  readonly isEvenInARow?: true
  /** On the screen, thousands stand apart: "24,620 kg". */
  readonly isGrouped?: true
  /** In which a value is spoken where the pack names no other step. */
  step(spec: S): number
  /** Digits behind the point in which values are compared; what lies beyond is the dust of binary fractions. */
  precision(spec: S): number
  /** All digits of a value as they are said: "089". */
  digits(value: number, spec: S): string
  /** The unit in which `expected` is `said`, where it is another one than the figure's: nothing but an account of a slip. */
  otherUnitOf?(said: number, expected: number, spec: S): Unit | undefined
}

/** Values are text, compared as they are written. */
export interface TextKind<S> extends Kind<S> {
  readonly values: 'text'
  /** How a value is written, with an example: 'four digits, hours and minutes: "0935"'. */
  written(spec: S): string
  isWritten(value: Value, spec: S): boolean
  /** As it was typed -> as it is written: capitals, zeros in front. */
  tidied(text: string): string
  /** One text for all values that are spoken alike. */
  canonical(value: Value, spec: S): string
}

/** The unit of values in inputs, tables and calculators: always the same one, or the spec's, or any that a pack names. */
export type Measure<S> =
  | Unit
  | (S extends { readonly unit: Unit } ? 'unitOfSpec' : never)
  /** `said`: what of the unit is part of the spec, since it is spoken. */
  | { readonly anyUnit: true; said(unit: Unit): Partial<S> }

export interface Direction {
  /** The amount is right and the direction is another one; `isRight` says which values are right. */
  isTurned(said: Value, expected: Value, isRight: (value: Value) => boolean): boolean
  /** The amount is right and no direction was said, though the value has one. */
  isLeftOut(said: Value, expected: Value): boolean
}

/** One number as it was said. */
export interface SaidNumber {
  /** Its words by their class (`numberShapes.ts`): d digit, e teen, y tens, h hundred, k thousand, r repeat, point. */
  readonly signs: string
  /** Digits that it has at least: "one twenty eight" has three. */
  readonly digits: number
  /** Those behind the point. */
  readonly decimals: number
  /** The word that follows; empty at the end. */
  readonly next: string
}

export interface Heard<S> {
  /** Sequences of class signs that a value may be said in; empty where it holds no number. */
  shapes(spec: S): readonly string[]
  /** Words that go with a value: those that stand before it, and those behind it. */
  readonly before: readonly string[]
  readonly behind: readonly string[]
  /** Words after which more of the value must come. */
  readonly openings: readonly string[]
  /** Digits of the longest number that is taken for a value; undefined where a value is not one number. */
  mostDigits(spec: S): number | undefined
  /** Whether a number, as it was said, has all that a value of the kind has. */
  isWhole(number: SaidNumber, spec: S): boolean
  /** Every value has as many digits, so that nothing can follow a whole one. */
  readonly isOfOneLength: boolean
  /** Values hold letters of the alphabet. */
  readonly isSpelled: boolean
  /** For shapes with a sign of their own: the rules that it stands for. */
  readonly own?: OwnRules
}

/** A sign that no class of number words has, and the rules of the grammar that it stands for. */
export interface OwnRules {
  readonly sign: string
  /** Name of the rule that the sign stands for. */
  readonly rule: string
  /** `names`: those of all values of the kind that may be heard. */
  rules(names: readonly string[]): readonly Rule[]
}

/** Of a number one digit more than any has is a slip of the tongue; of a code it is mostly the ear's. */
export const SLIP = 1
