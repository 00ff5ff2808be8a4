/** How a reason writes numbers: grouped by thousands, no more decimals than help, the unit behind. */

import { showUnit, type Unit } from '../units.ts'

/** 28412.5 -> "28,412.5"; at most `decimals` digits behind the point, without trailing zeros. */
export function showNumber(value: number, decimals = 3): string {
  const short = Number.isInteger(value) ? value : Number(value.toFixed(decimals))
  if (short > -1000 && short < 1000) return String(short + 0)
  const [whole = '', fraction] = String(Math.abs(short)).split('.')
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',')
  return (short < 0 ? '-' : '') + grouped + (fraction ? `.${fraction}` : '')
}

/** "28,412.5 kg". */
export function showMeasured(value: number | string, unit: Unit | undefined, decimals = 3): string {
  if (typeof value === 'string') return value
  const shown = unit ? showUnit(unit) : ''
  return `${showNumber(value, decimals)}${shown.startsWith('°') ? '' : ' '}${shown}`.trim()
}
