/**
 * The workings of a sum: "24,364 kg + 5,060 kg = 29,424 kg". Adding up the parts as they are shown must give the total as
 * it is shown; where rounding for display prevents that, the text says so. The spoken value is rounded later, separately.
 */

import { convert, fits } from '../units.ts'
import type { Work } from './calculator.ts'
import { formatMeasured, formatNumber } from './format.ts'
import { workUnit } from './work.ts'

export interface Term {
  readonly text: string
  /** Its amount as a reader sees it, in the unit of the sum. */
  readonly shown: number
}

/** After a sum whose parts, as shown, add up to another last digit. */
const ROUNDED_PARTS = ' (the parts as shown are rounded)'

/** Digits behind the point that reasons show. */
const read = (value: number): number => Math.round(value * 1000) / 1000

/** A total may differ from its parts by its own rounding to those digits. */
const HALF_OF_LAST = 0.0005 + 1e-6

/** The calculator's unit in units of the figure: moments are often given in hundreds or thousands. */
function scaleOf({ basis, calculator, figure }: Work): number {
  const given = workUnit(basis, calculator.gives, figure.unit)
  return fits(given, figure.unit) ? convert(1, given, figure.unit) : 1
}

/** A load (or fuel) times its arm; divided by 100 where moments are given in hundreds. */
export function product(work: Work, label: string, load: number, arm: number): Term {
  const scale = scaleOf(work)
  const divisor = Math.round(1 / scale)
  const isWhole = divisor > 1 && Math.abs(divisor * scale - 1) < 1e-9
  const text = `${label} ${formatNumber(load)} x ${formatNumber(arm)}${isWhole ? ` / ${formatNumber(divisor)}` : ''}`
  return { text, shown: read(load) * read(arm) * scale }
}

/** A part with its text; `amount` is in the calculator's unit. */
export function part(work: Work, text: string, amount: number): Term {
  return { text, shown: read(amount * scaleOf(work)) }
}

/** A part shown as its name and its amount; `amount` is in the calculator's unit. */
export function labelled(work: Work, label: string, amount: number): Term {
  return part(work, `${label} ${formatNumber(amount)}`, amount)
}

/** One line: the terms, the total in the figure's unit. `total` is in the calculator's unit; with '-' the later terms are subtracted. */
export function sumExplanation(
  work: Work,
  terms: readonly Term[],
  total: number,
  sign: '+' | '-' = '+',
  note = '',
): string {
  const sum = terms.reduce((all, { shown }, index) => (index === 0 || sign === '+' ? all + shown : all - shown), 0)
  const whole = total * scaleOf(work)
  const addsUp = note !== '' || Math.abs(sum - read(whole)) < HALF_OF_LAST
  const parts = terms.map(({ text }) => text).join(` ${sign} `)
  return `${parts}${note} = ${formatMeasured(whole, work.figure.unit)}${addsUp ? '' : ROUNDED_PARTS}`
}
