/**
 * A sum told by its parts: "24,364 kg + 5,060 kg = 29,424 kg". Whoever adds up what is shown must come to the total that
 * is shown; where the digits left out forbid it, the text says so. What is spoken is rounded only afterwards, in a step
 * of its own.
 */

import { convert, fits } from '../units.ts'
import type { Work } from './calculator.ts'
import { formatMeasured, formatNumber } from './format.ts'
import { workUnit } from './work.ts'

export interface Term {
  readonly text: string
  /** What a reader takes it for, in the unit of the sum. */
  readonly shown: number
}

/** Behind a sum whose parts, as shown, come to something else in the last digit. */
const ROUNDED_PARTS = ' (the parts as shown are rounded)'

/** Digits behind the point that reasons show. */
const read = (value: number): number => Math.round(value * 1000) / 1000

/** A total may differ from its parts by its own rounding to those digits. */
const HALF_OF_LAST = 0.0005 + 1e-6

/** Units of the calculator in one of the figure's: moments are often told in hundreds or thousands. */
function scaleOf({ basis, calculator, figure }: Work): number {
  const given = workUnit(basis, calculator.gives, figure.unit)
  return fits(given, figure.unit) ? convert(1, given, figure.unit) : 1
}

/** A load (or fuel) times its arm; with "/ 100" behind where moments are told in hundreds. */
export function product(work: Work, label: string, load: number, arm: number): Term {
  const scale = scaleOf(work)
  const divisor = Math.round(1 / scale)
  const isWhole = divisor > 1 && Math.abs(divisor * scale - 1) < 1e-9
  const text = `${label} ${formatNumber(load)} x ${formatNumber(arm)}${isWhole ? ` / ${formatNumber(divisor)}` : ''}`
  return { text, shown: read(load) * read(arm) * scale }
}

/** A part that is told as it is; `amount` in the unit that the calculator works in. */
export function part(work: Work, text: string, amount: number): Term {
  return { text, shown: read(amount * scaleOf(work)) }
}

/** A part that is told as its name and its amount. */
export function labelled(work: Work, label: string, amount: number): Term {
  return part(work, `${label} ${formatNumber(amount)}`, amount)
}

/** `total` in the unit that the calculator works in. Parts to be taken off follow the first one. */
export function sumExplanation(
  work: Work,
  terms: readonly Term[],
  total: number,
  sign: '+' | '-' = '+',
  note = '',
): string {
  const sum = terms.reduce((all, { shown }, index) => (index === 0 || sign === '+' ? all + shown : all - shown), 0)
  const whole = total * scaleOf(work)
  const isFooted = note !== '' || Math.abs(sum - read(whole)) < HALF_OF_LAST
  const told = terms.map(({ text }) => text).join(` ${sign} `)
  return `${told}${note} = ${formatMeasured(whole, work.figure.unit)}${isFooted ? '' : ROUNDED_PARTS}`
}
