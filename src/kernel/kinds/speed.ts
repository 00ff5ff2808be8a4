/** Speeds in knots. */

import { sayDigits } from '../numbers/say.ts'
import { type NumberKind, SLIP } from './definition.ts'
import { SCALE_FIELDS } from './fields.ts'
import { oneStepOff } from './mistakes.ts'
import { affixTable } from './reading.ts'
import { WHOLE } from './shapes.ts'
import { narrowed, type Scale } from './value.ts'
import { digitsOfWhole, readWhole, WHOLE_PRECISION } from './wholeNumbers.ts'

export interface SpeedSpec extends Scale {
  readonly kind: 'speed'
  readonly unit?: 'kt'
}

const AFFIXES = affixTable([
  [{ role: 'unit' }, ['knots', 'knot', 'kt', 'kts', 'indicated']],
  [{ role: 'otherUnit' }, ['mach', 'mph', 'kmh']],
])
const scale = (spec: SpeedSpec) => narrowed({ min: 0, max: 999 }, spec)

export const speed: NumberKind<SpeedSpec> = {
  values: 'numbers',
  fields: { ...SCALE_FIELDS, unit: { type: 'oneOf', values: ['kt'], optional: true } },
  measure: 'kt',
  scale,
  isEvenInARow: true,
  step: () => 1,
  precision: () => WHOLE_PRECISION,

  affixes: () => AFFIXES,
  nouns: ['speed', 'airspeed'],
  read: (tokens) => readWhole(tokens, { affixes: AFFIXES, width: () => 3 }),
  say: (value, _, phraseology) => sayDigits(String(Math.abs(Number(value))), phraseology !== 'plain'),
  show: (value) => `${value} kt`,
  digits: digitsOfWhole,

  heard: {
    shapes: () => WHOLE,
    before: [],
    behind: ['knots'],
    openings: [],
    mostDigits: () => 3 + SLIP,
    isWhole: ({ digits }) => digits >= 3,
    isOfOneLength: true,
    isSpelled: false,
  },
  mayBeCutShort: false,
  mistake: (value, spec, chance) => oneStepOff(Number(value), 10, scale(spec), chance),
  isReadBack: true,
}
