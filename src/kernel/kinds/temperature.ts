/** Temperatures, above and below zero. */

import { convert } from '../units.ts'
import { type NumberKind, SLIP } from './definition.ts'
import { SCALE_FIELDS } from './fields.ts'
import { type Affix, affixTable } from './reading.ts'
import { WHOLE } from './shapes.ts'
import { narrowed, type Scale } from './value.ts'
import { digitsOfWhole, readWhole, sayWhole, WHOLE_PRECISION } from './wholeNumbers.ts'

export interface TemperatureSpec extends Scale {
  readonly kind: 'temperature'
  readonly unit: 'C' | 'F'
}

const SIGNS: readonly (readonly [Affix, readonly string[]])[] = [
  [{ role: 'sign', sign: -1 }, ['minus']],
  [{ role: 'sign', sign: 1 }, ['plus']],
]
const AFFIXES = {
  C: affixTable([
    [{ role: 'unit' }, ['degrees', 'degree', 'celsius', 'centigrade', 'c']],
    [{ role: 'otherUnit' }, ['fahrenheit', 'kelvin', 'f']],
    ...SIGNS,
    // As in reports: "M05".
    [{ role: 'sign', sign: -1 }, ['m']],
  ]),
  F: affixTable([
    [{ role: 'unit' }, ['degrees', 'degree', 'fahrenheit', 'f']],
    [{ role: 'otherUnit' }, ['celsius', 'centigrade', 'kelvin', 'c']],
    ...SIGNS,
  ]),
}

export const temperature: NumberKind<TemperatureSpec> = {
  values: 'numbers',
  fields: { ...SCALE_FIELDS, unit: { type: 'oneOf', values: ['C', 'F'] } },
  measure: 'unitOfSpec',
  scale: (spec) => narrowed({ min: -100, max: 1999 }, spec),
  step: () => 1,
  precision: () => WHOLE_PRECISION,
  otherUnitOf(said, expected, { unit }) {
    const other = unit === 'C' ? 'F' : 'C'
    return Math.round(convert(expected, unit, other)) === said ? other : undefined
  },

  affixes: ({ unit }) => AFFIXES[unit],
  nouns: ['temperature', 'temp', 'oat'],
  read: (tokens, { unit }) =>
    readWhole(tokens, {
      affixes: AFFIXES[unit],
      // "Minus zero five" is a temperature; "zero five" may be two.
      width: ({ signs }) => (signs.length === 0 ? 1 : 2),
    }),
  say: (value, _, phraseology) => sayWhole(value, phraseology),
  show: (value, { unit }) => `${value} °${unit}`,
  digits: digitsOfWhole,

  heard: {
    shapes: () => WHOLE,
    before: [],
    behind: ['minus', 'plus', 'degrees', 'celsius', 'fahrenheit'],
    openings: [],
    mostDigits: () => 2 + SLIP,
    isWhole: () => true,
    isOfOneLength: false,
    isSpelled: false,
  },
  mayBeCutShort: false,
  mistake: () => undefined,
  isReadBack: false,
}
