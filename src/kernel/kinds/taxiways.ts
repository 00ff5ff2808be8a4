/** Taxiways as they are written, alone and in a route. */

import type { Seeded } from '../seeded.ts'

/** One or two letters, then up to two digits or one more letter: A, A3, AB, AB12, A3B. */
export const TAXIWAY = /[A-Z]{1,2}\d{0,2}[A-Z]?/

/** The next number, or the next letter where there is none. */
export function otherTaxiway(text: string, chance: Seeded): string {
  const [, letters = '', number = ''] = /^([A-Z]+)(\d*)/.exec(text) ?? []
  if (number !== '') return `${letters}${Number(number) + 1 + chance.below(2)}`
  const last = letters.charCodeAt(letters.length - 1) - 65
  return `${letters.slice(0, -1)}${String.fromCharCode(65 + ((last + 1 + chance.below(3)) % 26))}`
}
