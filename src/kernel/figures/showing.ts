/** How a reason writes numbers: grouped by thousands, no more decimals than help, the unit behind. */

import { showUnit, type Unit } from '../units.ts'

/** 28412.5 -> "28,412.5"; at most `decimals` digits behind the point, without trailing zeros. */
export function showNumber(value: number, decimals = 3): string {
  const [whole = '', fraction] = String(Number(Math.abs(value).toFixed(decimals))).split('.')
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',')
  const sign = value < 0 && Number(value.toFixed(decimals)) !== 0 ? '-' : ''
  return sign + grouped + (fraction ? `.${fraction}` : '')
}

/** "28,412.5 kg". */
export function showMeasured(value: number | string, unit: Unit | undefined, decimals = 3): string {
  if (typeof value === 'string') return value
  const shown = unit ? showUnit(unit) : ''
  return `${showNumber(value, decimals)}${shown.startsWith('°') ? '' : ' '}${shown}`.trim()
}
