/** A number as people write it, with or without its unit: 2310, "2,310 kg", "29.80 inHg". */

import { LARGEST_NUMBER } from '../kernel/bounds.ts'
import { ownOf } from '../kernel/own.ts'
import { quoted } from '../kernel/quoted.ts'
import { convert, fits, isUnit, type Unit } from '../kernel/units.ts'

/** Units as people write them besides their own names. */
const WRITTEN: Readonly<Record<string, Unit>> = {
  gal: 'usgal',
  inches: 'in',
  lbs: 'lb',
  litres: 'l',
  '°C': 'C',
  '°F': 'F',
  '%': 'percentMac',
  W: 'degW',
  west: 'degW',
  E: 'degE',
  east: 'degE',
}

export type Quantity = { readonly number: number } | { readonly code: string; readonly message: string }

/** In the wanted unit; a unit that does not fit, or none that is known, is told, and a number that none can be. */
export function quantityIn(given: number | string, unit: Unit | undefined): Quantity {
  if (typeof given === 'number') return { number: given }
  const [, digits = '', word = ''] = /^\s*(-?[\d.,]+)\s*(\S.*?)?\s*$/.exec(given) ?? []
  const number = digits === '' ? Number.NaN : Number(digits.replace(/,(?=\d{3}\b)/g, ''))
  if (Number.isNaN(number) || /^e[-+\d]/i.test(word)) {
    return { code: 'input.number', message: `${quoted(given)} should be a number${unit ? ` in ${unit}` : ''}` }
  }
  if (Math.abs(number) > LARGEST_NUMBER) {
    return { code: 'input.range', message: `${quoted(given)} is larger than anything of an aircraft` }
  }
  if (word === '') return { number }
  const from = ownOf(WRITTEN, word) ?? word
  if (!isUnit(from)) {
    return {
      code: 'unit.unknown',
      message: `${quoted(word)} is no unit that is known here${unit ? `; write ${unit}` : ''}`,
    }
  }
  if (!unit || !fits(from, unit)) {
    const right = unit ? `this is given in ${unit}` : 'this has no unit'
    return { code: 'unit.misfit', message: `${quoted(given)} is in ${from}; ${right}` }
  }
  return { number: convert(number, from, unit) }
}
