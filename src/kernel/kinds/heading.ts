/** Headings and directions, always three digits. */

import { sayDigits } from '../numbers/say.ts'
import { unsignedRun } from './codes.ts'
import { type NumberKind, SLIP } from './definition.ts'
import { SCALE_FIELDS } from './fields.ts'
import { oneStepOff } from './mistakes.ts'
import { affixTable, type Reading } from './reading.ts'
import { THREE_DIGITS } from './shapes.ts'
import { narrowed, type Scale } from './value.ts'
import { WHOLE_PRECISION } from './wholeNumbers.ts'

/** 1 to 360. */
export interface HeadingSpec extends Scale {
  readonly kind: 'heading'
}

const AFFIXES = affixTable([
  [{ role: 'unit' }, ['degrees', 'degree', 'magnetic']],
  [{ role: 'otherUnit' }, ['true']],
  [{ role: 'noun' }, ['heading', 'course']],
])
const COMPASS = { min: 1, max: 360 }
const scale = (spec: HeadingSpec) => narrowed(COMPASS, spec)
const threeDigits = (value: number | string) => String(value).padStart(3, '0')

export const heading: NumberKind<HeadingSpec> = {
  values: 'numbers',
  fields: SCALE_FIELDS,
  measure: 'deg',
  scale,
  bounds: COMPASS,
  wrapped: (value) => ((value + 359) % 360) + 1,
  step: () => 1,
  precision: () => WHOLE_PRECISION,

  affixes: () => AFFIXES,
  nouns: ['heading', 'course', 'track'],
  read(tokens) {
    const run = unsignedRun(tokens, AFFIXES)
    return (run?.numbers ?? []).flatMap((number): Reading[] => {
      const { whole, fraction, secondary, style } = number
      if (fraction !== undefined || whole.length > 3) return []
      const standard = number.standard && style !== 'scaled'
      const otherUnit = run?.otherUnit ? { otherUnit: true } : {}
      const reading: Reading = { value: Number(whole), digits: whole, standard, secondary, ...otherUnit }
      return [whole.length < 3 ? { ...reading, lacks: 'digits' } : reading]
    })
  },
  say: (value, _, phraseology) => sayDigits(threeDigits(value), phraseology !== 'plain'),
  show: (value) => `${threeDigits(value)}°`,
  digits: threeDigits,

  heard: {
    shapes: () => THREE_DIGITS,
    before: ['heading'],
    behind: ['degrees'],
    openings: ['heading'],
    mostDigits: () => 3 + SLIP,
    isWhole: ({ digits }) => digits >= 3,
    isOfOneLength: true,
    isSpelled: false,
  },
  mayBeCutShort: false,
  /** "Eight nine" for 089: only zeros are missing. */
  isRightSoFar: (said, expected) => said === expected,
  mistake: (value, spec, chance) => oneStepOff(Number(value), 10, scale(spec), chance),
  isReadBack: true,
}
