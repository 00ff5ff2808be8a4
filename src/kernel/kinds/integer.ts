/** Whole numbers without a meaning of their own: counts, percentages without decimals, minutes. */

import { type NumberKind, SLIP } from './definition.ts'
import { SCALE_FIELDS } from './fields.ts'
import { affixTable } from './reading.ts'
import { WHOLE } from './shapes.ts'
import { narrowed, type Scale } from './value.ts'
import { digitsOfWhole, readWhole, sayWhole, WHOLE_PRECISION } from './wholeNumbers.ts'

export interface IntegerSpec extends Scale {
  readonly kind: 'integer'
}

const AFFIXES = affixTable([
  [{ role: 'unit' }, ['units', 'unit', 'percent', 'degrees', 'degree', 'psi', 'rpm', 'minutes', 'minute']],
  [{ role: 'sign', sign: -1 }, ['minus']],
  [{ role: 'sign', sign: 1 }, ['plus']],
])

export const integer: NumberKind<IntegerSpec> = {
  values: 'numbers',
  fields: SCALE_FIELDS,
  measure: { anyUnit: true, said: () => ({}) },
  scale: (spec) => narrowed({ min: -99_999, max: 999_999 }, spec),
  isGrouped: true,
  step: () => 1,
  precision: () => WHOLE_PRECISION,

  affixes: () => AFFIXES,
  nouns: [],
  read: (tokens) => readWhole(tokens, { affixes: AFFIXES }),
  say: (value, _, phraseology) => sayWhole(value, phraseology),
  show: String,
  digits: digitsOfWhole,

  heard: {
    shapes: () => WHOLE,
    before: [],
    behind: ['minus'],
    openings: [],
    mostDigits: () => 5 + SLIP,
    isWhole: ({ digits }) => digits >= 2,
    isOfOneLength: false,
    isSpelled: false,
  },
  mayBeCutShort: false,
  mistake: () => undefined,
  isReadBack: false,
}
