/** Values with decimals: plain ones (`decimal`) and trims, which have a direction. */

import { sayDigits } from '../numbers/say.ts'
import type { Token } from '../numbers/tokens.ts'
import type { DecimalSpec, Phraseology, TrimSpec, Value } from './kind.ts'
import { type Affixes, affixTable, amountOf, partRun, type Reading, type Run, zerosFit } from './reading.ts'

const PERCENT = affixTable([
  [
    { role: 'unit' },
    ['percent', 'percents', 'per', 'cent', 'mac', 'n1', 'torque', 'units', 'unit', 'degrees', 'degree'],
  ],
  [{ role: 'sign', sign: -1 }, ['minus']],
  [{ role: 'sign', sign: 1 }, ['plus']],
])

const TRIM = affixTable([
  [{ role: 'unit' }, ['units', 'unit', 'degrees', 'degree', 'divisions', 'dots']],
  [{ role: 'noun' }, ['nose', 'wing', 'trim']],
  [{ role: 'direction', direction: 'up' }, ['up', 'upwards', 'upward', 'anu']],
  [{ role: 'direction', direction: 'down' }, ['down', 'downwards', 'downward']],
  [{ role: 'direction', direction: 'left' }, ['left', 'lefthand']],
  [{ role: 'direction', direction: 'right' }, ['right', 'righthand']],
  [{ role: 'sign', sign: -1 }, ['minus']],
  [{ role: 'sign', sign: 1 }, ['plus']],
  [{ role: 'zero' }, ['neutral', 'centered', 'centred', 'center', 'centre']],
])

export function decimalAffixes(): Affixes {
  return PERCENT
}
export function trimAffixes(): Affixes {
  return TRIM
}

interface Amount {
  readonly amount: number
  readonly standard: boolean
  readonly secondary: boolean
  /** Fewer decimals than the figure has. */
  readonly short: boolean
  /** Broken off behind the point. */
  readonly open: boolean
}

/** The amounts said, with too few decimals marked; one decimal too many is no reading of the figure's shape. */
function amounts(run: Run, decimals: number): readonly Amount[] {
  return run.numbers.flatMap((number): Amount[] => {
    const { whole, fraction, standard, secondary } = number
    if (number.thousandAfter || !zerosFit(whole, 1)) return []
    if (fraction === undefined || fraction.length < decimals) {
      if (fraction === '' && whole === '') return []
      const amount = amountOf(whole, fraction ?? '', decimals)
      return [{ amount, standard, secondary, short: decimals > 0, open: fraction === '' }]
    }
    if (fraction.length > decimals && Number(fraction.slice(decimals)) === 0) return []
    const amount = amountOf(whole, fraction, Math.max(decimals, fraction.length))
    return [{ amount, standard, secondary, short: false, open: false }]
  })
}

export function readDecimal(tokens: readonly Token[], spec: DecimalSpec): readonly Reading[] {
  const run = partRun(tokens, PERCENT)
  if (!run || run.signs.length > 1) return []
  const sign = run.signs[0] ?? 1
  const said = [...amounts(run, spec.decimals), ...implied(run, spec.decimals, Number.POSITIVE_INFINITY)]
  return said.map(({ amount, standard, secondary, short, open }): Reading => {
    const reading = { value: clean(sign * amount), standard, secondary }
    if (short) return { ...reading, lacks: 'decimals', open }
    return reading
  })
}

const PITCH: Readonly<Record<string, 1 | -1>> = { up: 1, down: -1 }
const SIDE: Readonly<Record<string, 1 | -1>> = { right: 1, left: -1 }

/** Sign of a trim's direction; 0 for one that the axis does not have. */
function directionSign(direction: string, axis: TrimSpec['axis']): 1 | -1 | 0 {
  const table = axis === 'roll' || axis === 'yaw' ? SIDE : PITCH
  return table[direction] ?? 0
}

export function readTrim(tokens: readonly Token[], spec: TrimSpec): readonly Reading[] {
  const run = partRun(tokens, TRIM)
  if (!run || run.signs.length + new Set(run.directions).size > 1) return []
  const direction = run.directions[0]
  const sign = direction === undefined ? run.signs[0] : directionSign(direction, spec.axis)
  if (run.number.length === 0) {
    if (run.zero) return direction === undefined ? [{ value: 0, standard: true }] : []
    return sign ? [{ value: sign, standard: true, lacks: 'digits' }] : []
  }
  if (run.zero) return []
  const most = Math.max(Math.abs(spec.min ?? -20), Math.abs(spec.max ?? 20))
  const said = [...amounts(run, spec.decimals), ...implied(run, spec.decimals, most)]
  return said.map(({ amount, standard, secondary, short, open }): Reading => {
    const reading = { value: clean((sign || 1) * amount), standard, secondary }
    if (open) return { ...reading, lacks: 'decimals', open }
    if (amount === 0) return sign === 0 ? { ...reading, otherUnit: true } : { ...reading, value: 0 }
    if (sign === 0) return { ...reading, value: `${amount} ${direction}`, otherUnit: true }
    if (short) return { ...reading, lacks: 'decimals' }
    return sign === undefined ? { ...reading, lacks: 'direction' } : reading
  })
}

/**
 * Many say "five two up" for 5.2: taken so where the digits as a whole number are more than `most`, or begin with a
 * zero; else it is only possible.
 */
function implied(run: Run, decimals: number, most: number): readonly Amount[] {
  return run.numbers.flatMap(({ whole, fraction, style, secondary }) => {
    const bare = fraction === undefined && style === 'single' && decimals > 0 && !secondary
    if (!bare || whole.length <= decimals || !zerosFit(whole.slice(0, -decimals), 1)) return []
    const amount = amountOf(whole.slice(0, -decimals), whole.slice(-decimals), decimals)
    const sure =
      whole.length === decimals + 1 &&
      (Number(whole) > most || (whole.startsWith('0') && most < Number.POSITIVE_INFINITY))
    return [{ amount, standard: false, secondary: !sure, short: false, open: false }]
  })
}

/** No negative zero, no dust of binary fractions. */
function clean(value: number): number {
  return value === 0 ? 0 : Number(value.toFixed(6))
}

function sayAmount(value: Value, decimals: number, phraseology: Phraseology): string {
  const [whole = '0', fraction = ''] = Math.abs(Number(value)).toFixed(decimals).split('.')
  const radio = phraseology !== 'plain'
  const words = sayDigits(whole, radio)
  return fraction === '' ? words : `${words} ${radio ? 'decimal' : 'point'} ${sayDigits(fraction, radio)}`
}

export function sayDecimal(value: Value, spec: DecimalSpec, phraseology: Phraseology): string {
  const unit = spec.unit === 'percent' ? ' percent' : ''
  return `${Number(value) < 0 ? 'minus ' : ''}${sayAmount(value, spec.decimals, phraseology)}${unit}`
}

export function sayTrim(value: Value, spec: TrimSpec, phraseology: Phraseology): string {
  const words = sayAmount(value, spec.decimals, phraseology)
  return Number(value) === 0 ? words : `${words} ${trimDirection(Number(value), spec.axis)}`
}

function trimDirection(value: number, axis: TrimSpec['axis']): string {
  if (axis === 'roll' || axis === 'yaw') return value < 0 ? 'left' : 'right'
  return value < 0 ? 'down' : 'up'
}

export function showDecimal(value: Value, spec: DecimalSpec): string {
  return `${Number(value)
    .toFixed(spec.decimals)
    .replace(/^-(0(\.0+)?)$/, '$1')}${spec.unit === 'percent' ? ' %' : ''}`
}

export function showTrim(value: Value, spec: TrimSpec): string {
  const words = Math.abs(Number(value)).toFixed(spec.decimals)
  return Number(value) === 0 ? words : `${words} ${trimDirection(Number(value), spec.axis)}`
}
