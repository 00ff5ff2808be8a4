/** Whole numbers with a unit, as several kinds read and say them. */

import type { NumberReading } from '../numbers/readings.ts'
import { sayCardinal, sayDigits } from '../numbers/say.ts'
import type { Token } from '../numbers/tokens.ts'
import { type Affixes, amountOf, partRun, type Reading, type Run, zerosFit } from './reading.ts'
import type { Phraseology, Value } from './value.ts'

/** An amount that a number can be. */
export interface WholeAmount {
  readonly amount: number
  readonly standard: boolean
}

interface Form {
  readonly affixes: Affixes
  /** How many digits a value may be filled up to with zeros in front; 1 for none. */
  width?(run: Run): number
  /** The amounts of a number, where it may be more than the number itself. */
  amounts?(number: NumberReading, run: Run): readonly WholeAmount[]
  /** Said as values of another kind are. */
  isOther?(number: NumberReading): boolean
}

/** A fraction is kept, so that it can be refused. */
export function readWhole(tokens: readonly Token[], form: Form): readonly Reading[] {
  const { affixes, width = () => 1, amounts = itself, isOther = () => false } = form
  const run = partRun(tokens, affixes)
  if (!run || run.signs.length > 1 || run.directions.length > 0) return []
  const factor = run.signs[0] ?? 1
  return run.numbers.flatMap((number): Reading[] => {
    if (!zerosFit(number.whole, width(run)) || number.fraction === '') return []
    return amounts(number, run).map(({ amount, standard }) => ({
      value: factor * amount || 0,
      standard,
      digits: number.whole + (number.fraction ?? ''),
      secondary: number.secondary,
      ...(run.otherUnit || isOther(number) ? { otherUnit: true } : {}),
    }))
  })
}

/** The number as it stands, with its fraction. */
export function plainAmount({ whole, fraction = '' }: NumberReading): number {
  return amountOf(whole, fraction, fraction.length)
}

function itself(number: NumberReading): readonly WholeAmount[] {
  return number.thousandAfter ? [] : [{ amount: plainAmount(number), standard: number.standard }]
}

/** "Forty two", and digit by digit from 100 on and on the radio. */
export function sayWhole(value: Value, phraseology: Phraseology): string {
  const amount = Math.abs(Number(value))
  const radio = phraseology !== 'plain'
  const minus = Number(value) < 0 ? 'minus ' : ''
  return `${minus}${radio || amount > 99 ? sayDigits(String(amount), radio) : sayCardinal(amount)}`
}

/** Without sign and point. */
export const digitsOfWhole = (value: number): string => String(value).replace(/\D/g, '')

/** Whole numbers are compared to the thousandth, so that nothing that was said is rounded away. */
export const WHOLE_PRECISION = 3
