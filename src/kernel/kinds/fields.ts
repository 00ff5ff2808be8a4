/**
 * The fields of a kind's spec as plain data. Packs make the schema of a figure from them and `judge` the check of its
 * input, so a field is described once, beside the type that it must fit.
 */

import type { Scale } from './value.ts'

interface OneOf<T> {
  readonly type: 'oneOf'
  readonly values: readonly T[]
}
interface WholeNumber {
  readonly type: 'wholeNumber'
  readonly min: number
  readonly max: number
}
interface Amount {
  readonly type: 'number'
  readonly positive?: true
}
/** A list of texts that is not empty. */
interface Texts {
  readonly type: 'texts'
}
/** Names, each with a list of texts that is not empty. */
interface TextsByName {
  readonly type: 'textsByName'
}

interface Described {
  readonly about?: string
}
type Optional<S, F extends keyof S> = Record<never, never> extends Pick<S, F> ? { readonly optional: true } : unknown

type FieldFor<T> = [T] extends [string]
  ? OneOf<T>
  : [T] extends [number]
    ? WholeNumber | Amount
    : [T] extends [readonly string[]]
      ? Texts
      : TextsByName

/** One entry for every field of a spec besides its kind, fitting the field's type. */
export type FieldsOf<S> = {
  readonly [F in Exclude<keyof S, 'kind'>]-?: FieldFor<NonNullable<S[F]>> & Optional<S, F> & Described
}

/** Any of them, for those who read the table. */
export type Field = (OneOf<string> | WholeNumber | Amount | Texts | TextsByName) &
  Described & { readonly optional?: true }

export const SCALE_FIELDS: FieldsOf<Scale> = {
  min: { type: 'number', optional: true },
  max: { type: 'number', optional: true },
  step: { type: 'number', positive: true, optional: true },
}

/** Digits behind the point: no instrument of the trade shows more, and a billionth is the arithmetic's. */
export const DECIMALS = { type: 'wholeNumber', min: 0, max: 6 } as const
