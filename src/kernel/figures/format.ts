/** Numbers as explanations and messages show them: thousands grouped, few decimals, the unit after them. */

import { showUnit, type Unit } from '../units.ts'

/** 28412.5 -> "28,412.5"; at most `decimals` digits behind the point, without trailing zeros. */
export function formatNumber(value: number, decimals = 3): string {
  const scale = 10 ** decimals
  const short = Number.isInteger(value) ? value : Math.round(value * scale) / scale
  // Numbers that are written as powers of ten, or are none, have no thousands to group.
  if (!(Math.abs(short) >= 1000 && Math.abs(short) < 1e21)) return String(short + 0)
  const [whole = '', fraction] = String(Math.abs(short)).split('.')
  let grouped = whole.slice(-3)
  for (let end = whole.length - 3; end > 0; end -= 3) grouped = `${whole.slice(Math.max(0, end - 3), end)},${grouped}`
  return (short < 0 ? '-' : '') + grouped + (fraction ? `.${fraction}` : '')
}

/** "28,412.5 kg". */
export function formatMeasured(value: number | string, unit: Unit | undefined, decimals = 3): string {
  if (typeof value === 'string') return value
  // A variation is told west or east, never by a sign.
  if (unit === 'degW' && value < 0) return formatMeasured(-value, 'degE', decimals)
  const shown = unit ? showUnit(unit) : ''
  return `${formatNumber(value, decimals)}${shown.startsWith('°') ? '' : ' '}${shown}`.trim()
}
