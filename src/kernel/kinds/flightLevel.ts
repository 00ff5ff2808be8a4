/** Flight levels, in hundreds of feet. */

import { sayDigits } from '../numbers/say.ts'
import { type NumberKind, SLIP } from './definition.ts'
import { SCALE_FIELDS } from './fields.ts'
import { oneStepOff } from './mistakes.ts'
import { affixTable } from './reading.ts'
import { narrowed, type Scale } from './value.ts'
import { readWhole, WHOLE_PRECISION } from './wholeNumbers.ts'

export interface FlightLevelSpec extends Scale {
  readonly kind: 'flightLevel'
}

const AFFIXES = affixTable([
  [{ role: 'noun' }, ['flight', 'level', 'fl']],
  [{ role: 'otherUnit' }, ['feet', 'foot', 'ft', 'meters', 'metres', 'meter', 'metre']],
])
const scale = (spec: FlightLevelSpec) => narrowed({ min: 0, max: 999 }, spec)
const threeDigits = (value: number | string) => String(value).padStart(3, '0')

export const flightLevel: NumberKind<FlightLevelSpec> = {
  values: 'numbers',
  fields: SCALE_FIELDS,
  measure: 'none',
  scale,
  step: () => 1,
  precision: () => WHOLE_PRECISION,

  affixes: () => AFFIXES,
  nouns: [],
  read: (tokens) =>
    readWhole(tokens, {
      affixes: AFFIXES,
      // "Flight level zero five zero".
      width: () => 3,
      // "Three five thousand" is an altitude, not flight level 350.
      isOther: ({ whole, style }) => Number(whole) >= 1000 && style === 'scaled',
    }),
  say: (value, _, phraseology) =>
    `flight level ${sayDigits(threeDigits(Math.abs(Number(value))), phraseology !== 'plain')}`,
  show: (value) => `FL${threeDigits(value)}`,
  digits: threeDigits,

  heard: {
    shapes: () => ['ddd', 'dh'],
    before: ['flight', 'level'],
    behind: [],
    openings: ['flight'],
    mostDigits: () => 3 + SLIP,
    isWhole: ({ digits }) => digits >= 3,
    isOfOneLength: true,
    isSpelled: false,
  },
  mayBeCutShort: false,
  mistake: (value, spec, chance) => oneStepOff(Number(value), 10, scale(spec), chance),
  isReadBack: true,
}
