/** Amounts with decimals, as several kinds read and say them. */

import { sayDigits } from '../numbers/say.ts'
import { amountOf, type Run, zerosFit } from './reading.ts'
import type { Phraseology, Value } from './value.ts'

export interface Amount {
  readonly amount: number
  readonly standard: boolean
  readonly secondary: boolean
  /** Fewer decimals than the figure has. */
  readonly short: boolean
  /** Broken off behind the point. */
  readonly open: boolean
}

/** The amounts said, with too few decimals marked; one decimal too many is no reading of the figure's shape. */
export function amountsSaid(run: Run, decimals: number): readonly Amount[] {
  return run.numbers.flatMap((number): Amount[] => {
    const { whole, fraction, standard, secondary } = number
    if (number.thousandAfter || !zerosFit(whole, 1)) return []
    if (fraction === undefined || fraction.length < decimals) {
      if (fraction === '' && whole === '') return []
      const amount = amountOf(whole, fraction ?? '', decimals)
      return [{ amount, standard, secondary, short: decimals > 0, open: fraction === '' }]
    }
    if (fraction.length > decimals && Number(fraction.slice(decimals)) === 0) return []
    const amount = amountOf(whole, fraction, Math.max(decimals, fraction.length))
    return [{ amount, standard, secondary, short: false, open: false }]
  })
}

/**
 * Many say "five two up" for 5.2: taken so where the digits as a whole number are more than `most`, or begin with a
 * zero; else it is only possible.
 */
export function amountsImplied(run: Run, decimals: number, most: number, mostGrouped = most): readonly Amount[] {
  return run.numbers.flatMap(({ whole, fraction, style, secondary }) => {
    const bare = fraction === undefined && decimals > 0 && !secondary
    // "Twenty six four", and not "fifty two" for 5.2.
    const isGrouped = style === 'grouped' && whole.length > decimals + 1 && Number(whole) > mostGrouped
    if (!bare || !(style === 'single' || isGrouped)) return []
    if (whole.length <= decimals || !zerosFit(whole.slice(0, -decimals), 1)) return []
    const amount = amountOf(whole.slice(0, -decimals), whole.slice(-decimals), decimals)
    const isShort =
      whole.length === decimals + 1 &&
      (Number(whole) > most || (whole.startsWith('0') && most < Number.POSITIVE_INFINITY))
    const sure = isShort || (isGrouped && amount <= mostGrouped)
    return [{ amount, standard: false, secondary: !sure, short: false, open: false }]
  })
}

/** No negative zero, no dust of binary fractions. */
export function clean(value: number): number {
  return value === 0 ? 0 : Number(value.toFixed(6))
}

/** Without its sign: "five point two", "five decimal two". */
export function sayAmount(value: Value, decimals: number, phraseology: Phraseology): string {
  const [whole = '0', fraction = ''] = Math.abs(Number(value)).toFixed(decimals).split('.')
  const radio = phraseology !== 'plain'
  const words = sayDigits(whole, radio)
  return fraction === '' ? words : `${words} ${radio ? 'decimal' : 'point'} ${sayDigits(fraction, radio)}`
}

/** All digits of an amount, as they are said one by one. */
export function digitsWith(decimals: number, value: number): string {
  return value.toFixed(decimals).replace(/\D/g, '')
}

/** Not a power of ten: 10 ** -4 comes out as 0.00009999999999999999 in V8. */
export const stepWith = (decimals: number): number => Number(`1e-${decimals}`)
