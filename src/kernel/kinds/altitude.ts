/** Altitudes and heights in feet. */

import { sayCardinal, sayDigits, sayHundreds } from '../numbers/say.ts'
import { type NumberKind, SLIP } from './definition.ts'
import { SCALE_FIELDS } from './fields.ts'
import { oneStepOff } from './mistakes.ts'
import { affixTable } from './reading.ts'
import { THOUSANDS } from './shapes.ts'
import { narrowed, type Scale } from './value.ts'
import { digitsOfWhole, readWhole, WHOLE_PRECISION } from './wholeNumbers.ts'

export interface AltitudeSpec extends Scale {
  readonly kind: 'altitude'
  readonly unit?: 'ft'
}

const AFFIXES = affixTable([
  [{ role: 'unit' }, ['feet', 'foot', 'ft']],
  [{ role: 'otherUnit' }, ['meters', 'metres', 'meter', 'metre', 'flight', 'level', 'fl']],
])
const scale = (spec: AltitudeSpec) => narrowed({ min: 0, max: 99_999 }, spec)

export const altitude: NumberKind<AltitudeSpec> = {
  values: 'numbers',
  fields: { ...SCALE_FIELDS, unit: { type: 'oneOf', values: ['ft'], optional: true } },
  measure: 'ft',
  scale,
  isGrouped: true,
  step: () => 1,
  precision: () => WHOLE_PRECISION,

  affixes: () => AFFIXES,
  nouns: ['altitude'],
  read: (tokens) => readWhole(tokens, { affixes: AFFIXES }),
  say(value, _, phraseology) {
    const amount = Math.abs(Number(value))
    const radio = phraseology !== 'plain'
    if (amount > 0 && amount % 100 === 0) return sayHundreds(amount, radio)
    return radio || amount < 1000 ? sayDigits(String(amount), radio) : sayCardinal(amount)
  },
  show: (value) => `${value} ft`,
  digits: digitsOfWhole,

  heard: {
    shapes: () => [...THOUSANDS, 'dh', 'ddd', 'dddd', 'ddddd'],
    before: [],
    behind: ['feet'],
    openings: [],
    mostDigits: () => 5 + SLIP,
    isWhole: ({ digits, decimals }) => digits >= 4 || decimals > 0,
    isOfOneLength: false,
    isSpelled: false,
  },
  mayBeCutShort: false,
  mistake: (value, spec, chance) => oneStepOff(Number(value), 1000, scale(spec), chance),
  isReadBack: true,
}
