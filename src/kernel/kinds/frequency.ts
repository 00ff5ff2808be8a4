/** Radio frequencies in MHz. */

import { sayDigits } from '../numbers/say.ts'
import { digitsWith } from './amounts.ts'
import { unsignedRun } from './codes.ts'
import { type NumberKind, SLIP } from './definition.ts'
import { SCALE_FIELDS } from './fields.ts'
import { oneStepOff } from './mistakes.ts'
import { affixTable, type Reading } from './reading.ts'
import { after, THREE_DIGITS } from './shapes.ts'
import { narrowed, type Scale, type Value } from './value.ts'

export interface FrequencySpec extends Scale {
  readonly kind: 'frequency'
}

const AFFIXES = affixTable([[{ role: 'unit' }, ['megahertz', 'mhz']]])
const scale = (spec: FrequencySpec) => narrowed({ min: 100, max: 400 }, spec)
/** Of the 8.33 kHz raster: channels end in 0 or 5 kHz. */
const CHANNEL = 0.005

/** 118.1 -> "118.1"; 118 -> "118.0"; the 5 kHz step is kept. */
const written = (value: Value) =>
  Number(value)
    .toFixed(3)
    .replace(/0{1,2}$/, '')

export const frequency: NumberKind<FrequencySpec> = {
  values: 'numbers',
  fields: SCALE_FIELDS,
  measure: 'none',
  scale,
  step: () => CHANNEL,
  precision: () => 3,

  affixes: () => AFFIXES,
  nouns: ['frequency'],
  read: (tokens) =>
    (unsignedRun(tokens, AFFIXES)?.numbers ?? []).flatMap((number): Reading[] => {
      const { whole, fraction, secondary, pointWord } = number
      if (whole.length !== 3 && fraction === undefined) return []
      if (number.thousandAfter || whole.startsWith('0')) return []
      const standard = number.standard && (pointWord === 'decimal' || pointWord === '.')
      const reading: Reading = { value: Number(`${whole}.${fraction || '0'}`), standard, secondary }
      return [fraction ? reading : { ...reading, lacks: 'decimals' }]
    }),
  say(value, _, phraseology) {
    const radio = phraseology !== 'plain'
    const [whole = '', fraction = '0'] = written(value).split('.')
    return `${sayDigits(whole, radio)} ${radio ? 'decimal' : 'point'} ${sayDigits(fraction, radio)}`
  },
  show: written,
  digits: (value) => digitsWith(3, value),

  heard: {
    shapes: () => after(THREE_DIGITS, ['.d', '.dd', '.ddd', '.e', '.y', '.yd']),
    before: [],
    behind: [],
    openings: [],
    mostDigits: () => 6 + SLIP,
    isWhole: ({ digits, decimals }) => digits - decimals >= 3 && decimals >= 2,
    isOfOneLength: true,
    isSpelled: false,
  },
  mayBeCutShort: false,
  mistake: (value, spec, chance) => oneStepOff(Number(value), 0.1, scale(spec), chance, CHANNEL),
  isReadBack: true,
}
