/** Altimeter settings: hectopascals, and inches of mercury. A setting said in the other unit is told apart. */

import type { NumberReading } from '../numbers/readings.ts'
import { sayDigits } from '../numbers/say.ts'
import { convert } from '../units.ts'
import { digitsWith } from './amounts.ts'
import { unsignedRun } from './codes.ts'
import { type NumberKind, SLIP } from './definition.ts'
import { SCALE_FIELDS } from './fields.ts'
import { oneStepOff } from './mistakes.ts'
import { affixTable, type Reading } from './reading.ts'
import { after, digitStrings, TWIN } from './shapes.ts'
import { narrowed, type Scale, type Value } from './value.ts'

export interface AltimeterSpec extends Scale {
  readonly kind: 'altimeter'
  readonly unit: 'hPa' | 'inHg'
}

const HECTOPASCALS = ['hectopascals', 'hectopascal', 'hpa', 'millibars', 'millibar', 'mb', 'mbs']
const INCHES = ['inches', 'inch', 'inhg', 'mercury', 'hg']
const NOUNS = ['qnh', 'altimeter', 'altimeters']

const AFFIXES = {
  hPa: affixTable([
    [{ role: 'unit' }, HECTOPASCALS],
    [{ role: 'otherUnit' }, INCHES],
    [{ role: 'noun' }, NOUNS],
  ]),
  inHg: affixTable([
    [{ role: 'unit' }, INCHES],
    [{ role: 'otherUnit' }, HECTOPASCALS],
    [{ role: 'noun' }, NOUNS],
  ]),
}

/** Scales of the instrument in both units. */
const SCALES = { hPa: { min: 800, max: 1100 }, inHg: { min: 22, max: 32.5 } }
const scale = (spec: AltimeterSpec) => narrowed(SCALES[spec.unit], spec)
const STEPS = { hPa: 1, inHg: 0.01 }

interface Setting {
  readonly value: number
  readonly unit: AltimeterSpec['unit']
}

/** The settings a number can be; four digits beginning with 2 or 3 are inches, with or without the point. */
function settings({ whole, fraction, style }: NumberReading, unit: Setting['unit']): readonly Setting[] {
  if (fraction !== undefined) {
    if (whole.length >= 3) return [{ value: Number(`${whole}.${fraction}`), unit: 'hPa' }]
    return [{ value: Number(`${whole}.${fraction}`), unit: 'inHg' }]
  }
  const hPa: Setting = { value: Number(whole), unit: 'hPa' }
  if (unit === 'inHg' && whole.length < 4 && !isOnScale(hPa)) return [{ value: Number(whole) / 100, unit }]
  if (whole.length !== 4 || style === 'scaled' || whole.startsWith('0')) return [hPa]
  const inHg: Setting = { value: Number(whole) / 100, unit: 'inHg' }
  return isOnScale(inHg) ? [inHg] : isOnScale(hPa) ? [hPa] : [hPa, inHg]
}

function isOnScale({ value, unit }: Setting): boolean {
  const { min, max } = SCALES[unit]
  return value >= min && value <= max
}

function readSetting(number: NumberReading, unit: Setting['unit'], isOther: boolean): Reading[] {
  const said = settings(number, unit)
  // Off both scales: a slip in the figure's own unit.
  const setting = said.find((each) => each.unit === unit) ?? said[0]
  if (!setting) return []
  const { whole, fraction, secondary } = number
  const digits = whole + (fraction ?? '')
  const standard = number.standard && (number.style !== 'scaled' || /000$/.test(whole))
  const otherUnit = isOther || setting.unit !== unit
  const reading: Reading = { value: setting.value, standard, secondary, digits, ...(otherUnit ? { otherUnit } : {}) }
  return [lacksDigits(unit, digits, fraction) ? { ...reading, lacks: 'digits' } : reading]
}

/** Fewer digits than a setting has; below 1000 hPa three are a setting. */
function lacksDigits(unit: Setting['unit'], digits: string, fraction: string | undefined): boolean {
  if (unit === 'inHg') return digits.length < 4
  return digits.length < 3 || (digits.length === 3 && !/^[89]/.test(digits)) || fraction === ''
}

const written = (value: Value, { unit }: AltimeterSpec) => (unit === 'hPa' ? String(value) : Number(value).toFixed(2))

export const altimeter: NumberKind<AltimeterSpec> = {
  values: 'numbers',
  fields: { ...SCALE_FIELDS, unit: { type: 'oneOf', values: ['hPa', 'inHg'] } },
  measure: 'unitOfSpec',
  scale,
  step: ({ unit }) => STEPS[unit],
  precision: ({ unit }) => (unit === 'inHg' ? 2 : 3),
  otherUnitOf(said, expected, { unit }) {
    const other = unit === 'hPa' ? 'inHg' : 'hPa'
    // Settings in hPa are rounded down by some and to the nearest by others.
    const slack = other === 'inHg' ? 0.016 : 1
    return Math.abs(convert(expected, unit, other) - said) < slack ? other : undefined
  },

  affixes: ({ unit }) => AFFIXES[unit],
  nouns: ['altimeter', 'altimeters', 'qnh', 'qfe', 'setting'],
  read(tokens, { unit }) {
    const run = unsignedRun(tokens, AFFIXES[unit])
    return run?.numbers.flatMap((number) => readSetting(number, unit, run.otherUnit)) ?? []
  },
  say: (value, spec, phraseology) => sayDigits(written(value, spec), phraseology !== 'plain'),
  // Below 1,000 with its unit, or 992 is taken for 29.92 (CAP 413, common in ICAO states; Doc 4444 leaves it open; looked up).
  sayOnRadio: (value, spec, radio) => {
    const digits = sayDigits(written(value, spec), true)
    return spec.unit === 'hPa' && radio === 'icao' && Number(value) < 1000 ? `${digits} hectopascals` : digits
  },
  show: written,
  digits: (value, { unit }) => digitsWith(unit === 'inHg' ? 2 : 0, value),

  heard: {
    shapes: () => ['ddd', ...digitStrings(4), ...after(TWIN, after('.', TWIN))],
    before: [],
    behind: ['hectopascals', 'millibars', 'inches', 'standard'],
    openings: [],
    mostDigits: () => 4 + SLIP,
    isWhole: ({ digits }) => digits >= 4,
    isOfOneLength: true,
    isSpelled: false,
  },
  mayBeCutShort: true,
  mistake: (value, spec, chance) => oneStepOff(Number(value), STEPS[spec.unit], scale(spec), chance),
  isReadBack: true,
}
