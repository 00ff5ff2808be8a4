/** Whole numbers without a meaning of their own: counts, percentages without decimals, minutes. */

import { type NumberKind, SLIP } from './definition.ts'
import { SCALE_FIELDS } from './fields.ts'
import { WHOLE } from './shapes.ts'
import { SPOKEN_UNITS, type SpokenUnit, spokenUnit, unitAffixes } from './unitWords.ts'
import { narrowed, type Scale } from './value.ts'
import { digitsOfWhole, readWhole, sayWhole, WHOLE_PRECISION } from './wholeNumbers.ts'

export interface IntegerSpec extends Scale {
  readonly kind: 'integer'
  /** Where it is said. */
  readonly unit?: SpokenUnit
}

export const integer: NumberKind<IntegerSpec> = {
  values: 'numbers',
  fields: { ...SCALE_FIELDS, unit: { type: 'oneOf', values: SPOKEN_UNITS, optional: true } },
  measure: { anyUnit: true, said: spokenUnit },
  scale: (spec) => narrowed({ min: -99_999, max: 999_999 }, spec),
  isGrouped: true,
  step: () => 1,
  precision: () => WHOLE_PRECISION,

  affixes: ({ unit }) => unitAffixes(unit),
  nouns: [],
  read: (tokens, { unit }) => readWhole(tokens, { affixes: unitAffixes(unit) }),
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
