/**
 * What a kind is made of. A kind is a sort of value that can be said: a trim, a speed, a runway. Each has one file, and in
 * it one object with everything that holds for it; all other code asks that object (`kindOf`) and names no kind. Kinds
 * share functions, but what holds for a kind is stated in its own object. Optional members apply to a few kinds only.
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
  /** A field that is wrong though its shape is right, and what it should hold; undefined where nothing is wrong. */
  specFault?(spec: S): { readonly field: string; readonly should: string } | undefined

  /** Words that may stand beside the digits of a value, and what each of them does. */
  affixes(spec: S): Affixes
  /** Names of such a value as pilots say them before it. */
  readonly nouns: readonly string[]
  /** Whether a word that is no number is a value, or part of one: an option's name. */
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
  /** Where only the first or last digits of a value are heard, the rest may have been missed: it is asked for again. */
  readonly mayBeCutShort: boolean
  /** Where digits are missing: whether what was said is right as far as it goes. Left out: never. */
  isRightSoFar?(said: Value, expected: Value): boolean
  /** Whether the zeros at the end of a fraction may be left out of this number: "twenty-six" is all of 26.0. */
  zerosMayLack?(said: number): boolean
  /** For values with a direction or a side. */
  readonly direction?: Direction
  /** For values of several pieces, each of which may be wrong or missing: compares what was said with the value in force. */
  match?(reading: Reading, expected: Value, spec: S): Match
  /** For kinds with a fixed set of values: each value with every way to say it. */
  options?(spec: S): Readonly<Record<string, readonly string[]>>
  /** Names that a value may begin with. */
  names?(spec: S): readonly string[]

  /** Another value that a controller could say by mistake; undefined for kinds that are not mistaken this way. */
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
  /** Limits for any value of the kind, whatever the instrument; a pack may set others. */
  readonly bounds?: { readonly min?: number; readonly max?: number }
  /** For values that go round: 361 is heading 001. */
  wrapped?(value: number): number
  /** Several in a row are said with equally many digits: "one two eight one three one" are two speeds. */
  readonly isEvenInARow?: true
  /** Shown with its thousands separated: "24,620 kg". */
  readonly isGrouped?: true
  /** Values are spoken in this step where the pack names no other. */
  step(spec: S): number
  /** Decimals to which values are compared: anything finer is an artefact of binary fractions. */
  precision(spec: S): number
  /** All digits of a value as they are said: "089". */
  digits(value: number, spec: S): string
  /** The other unit in which `said` is the same amount as `expected`; explains a slip, and is never used to judge. */
  otherUnitOf?(said: number, expected: number, spec: S): Unit | undefined
}

/** Values are text, compared as they are written. */
export interface TextKind<S> extends Kind<S> {
  readonly values: 'text'
  /** How a value is written, with an example: 'four digits, hours and minutes: "0935"'. */
  written(spec: S): string
  isWritten(value: Value, spec: S): boolean
  /** From what was typed to how it is written: capitals, single spaces. */
  tidied(text: string): string
  /** One text for all values that are spoken alike. */
  canonical(value: Value, spec: S): string
}

/** The unit of values in inputs, tables and calculators: always the same, that of the spec, or any that a pack names. */
export type Measure<S> =
  | Unit
  | (S extends { readonly unit: Unit } ? 'unitOfSpec' : never)
  /** `said`: the part of the spec that follows from the unit, because it is spoken. */
  | { readonly anyUnit: true; said(unit: Unit): Partial<S> }

export interface Direction {
  /** The amount is right and the direction is wrong; `isRight` tells which values are right. */
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
  /** Digits after the point. */
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
