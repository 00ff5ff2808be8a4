/** Altimeter settings: hectopascals, and inches of mercury. A setting said in the other unit is told apart. */

import type { NumberReading } from '../numbers/readings.ts'
import { sayDigits } from '../numbers/say.ts'
import type { Token } from '../numbers/tokens.ts'
import type { AltimeterSpec, Phraseology, Value } from './kind.ts'
import { type Affixes, affixTable, partRun, type Reading } from './reading.ts'

const HECTOPASCALS = ['hectopascals', 'hectopascal', 'hpa', 'millibars', 'millibar', 'mb', 'mbs']
const INCHES = ['inches', 'inch', 'inhg', 'mercury', 'hg']
const NOUNS = ['qnh', 'altimeter', 'altimeters']

const HPA = affixTable([
  [{ role: 'unit' }, HECTOPASCALS],
  [{ role: 'otherUnit' }, INCHES],
  [{ role: 'noun' }, NOUNS],
])
const INHG = affixTable([
  [{ role: 'unit' }, INCHES],
  [{ role: 'otherUnit' }, HECTOPASCALS],
  [{ role: 'noun' }, NOUNS],
])

export function altimeterAffixes(spec: AltimeterSpec): Affixes {
  return spec.unit === 'hPa' ? HPA : INHG
}

/** Scales of the instrument in both units. */
export const ALTIMETER_SCALE = { hPa: { min: 800, max: 1100 }, inHg: { min: 22, max: 32.5 } } as const

interface Setting {
  readonly value: number
  readonly unit: 'hPa' | 'inHg'
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
  const { min, max } = ALTIMETER_SCALE[unit]
  return value >= min && value <= max
}

export function readAltimeter(tokens: readonly Token[], spec: AltimeterSpec): readonly Reading[] {
  const run = partRun(tokens, altimeterAffixes(spec))
  if (!run || run.signs.length > 0) return []
  return run.numbers.flatMap((number): Reading[] => {
    const said = settings(number, spec.unit)
    // Off both scales: a slip in the figure's own unit.
    const setting = said.find(({ unit }) => unit === spec.unit) ?? said[0]
    if (!setting) return []
    const { whole, fraction, secondary } = number
    const digits = whole + (fraction ?? '')
    const standard = number.standard && (number.style !== 'scaled' || /000$/.test(whole))
    const otherUnit = run.otherUnit || setting.unit !== spec.unit
    const reading: Reading = { value: setting.value, standard, secondary, digits, ...(otherUnit ? { otherUnit } : {}) }
    return [lacksDigits(spec, digits, fraction) ? { ...reading, lacks: 'digits' } : reading]
  })
}

/** Fewer digits than a setting has; below 1000 hPa three are a setting. */
function lacksDigits(spec: AltimeterSpec, digits: string, fraction: string | undefined): boolean {
  if (spec.unit === 'inHg') return digits.length < 4
  return digits.length < 3 || (digits.length === 3 && !/^[89]/.test(digits)) || fraction === ''
}

export function sayAltimeter(value: Value, spec: AltimeterSpec, phraseology: Phraseology): string {
  const text = spec.unit === 'hPa' ? String(value) : Number(value).toFixed(2)
  return sayDigits(text, phraseology !== 'plain')
}

export function showAltimeter(value: Value, spec: AltimeterSpec): string {
  return spec.unit === 'hPa' ? String(value) : Number(value).toFixed(2)
}
