/** Units of measure and their only conversions. Nothing else in the project multiplies by a conversion factor. */

/**
 * Size of each unit in its dimension's base: kg, m, litre, hPa, kt, degree, kg m, kg per litre, N m, second.
 * Exact by definition: the pound 0.45359237 kg and the foot 0.3048 m (international yard and pound agreement, 1959), the inch
 * 25.4 mm, the weight of a pound at 9.80665 m/s2, the US gallon 231 cubic inches, the inch of mercury (conventional, 0 degrees C) 13595.1 kg/m3 x 9.80665 m/s2 x 0.0254 m.
 */
const POUND = 0.45359237
const INCH = 0.0254
const GALLON = 3.785411784

interface UnitEntry {
  readonly dimension: string
  readonly size: number
  /** Added after scaling, for temperatures. */
  readonly offset?: number
  /** As on the screen. */
  readonly shown: string
}

export const UNITS = {
  kg: { dimension: 'weight', size: 1, shown: 'kg' },
  lb: { dimension: 'weight', size: POUND, shown: 'lb' },
  m: { dimension: 'length', size: 1, shown: 'm' },
  in: { dimension: 'length', size: INCH, shown: 'in' },
  ft: { dimension: 'length', size: 0.3048, shown: 'ft' },
  l: { dimension: 'volume', size: 1, shown: 'l' },
  usgal: { dimension: 'volume', size: GALLON, shown: 'US gal' },
  'kg/l': { dimension: 'density', size: 1, shown: 'kg/l' },
  'lb/usgal': { dimension: 'density', size: POUND / GALLON, shown: 'lb/US gal' },
  'kg m': { dimension: 'moment', size: 1, shown: 'kg m' },
  'kg m/1000': { dimension: 'moment', size: 1000, shown: 'kg m/1000' },
  'kg in': { dimension: 'moment', size: INCH, shown: 'kg in' },
  'lb m': { dimension: 'moment', size: POUND, shown: 'lb m' },
  'lb in': { dimension: 'moment', size: POUND * INCH, shown: 'lb in' },
  'lb in/100': { dimension: 'moment', size: POUND * INCH * 100, shown: 'lb in/100' },
  'lb in/1000': { dimension: 'moment', size: POUND * INCH * 1000, shown: 'lb in/1000' },
  hPa: { dimension: 'pressure', size: 1, shown: 'hPa' },
  psi: { dimension: 'pressure', size: (POUND * 9.80665) / (INCH * INCH) / 100, shown: 'psi' },
  bar: { dimension: 'pressure', size: 1000, shown: 'bar' },
  inHg: { dimension: 'pressure', size: (13595.1 * 9.80665 * INCH) / 100, shown: 'inHg' },
  C: { dimension: 'temperature', size: 1, offset: 0, shown: '°C' },
  F: { dimension: 'temperature', size: 5 / 9, offset: (-32 * 5) / 9, shown: '°F' },
  kt: { dimension: 'speed', size: 1, shown: 'kt' },
  deg: { dimension: 'angle', size: 1, shown: '°' },
  /** Magnetic variation: west is above zero and is added to a true direction, east is below it (east is least, west is best). */
  degW: { dimension: 'variation', size: 1, shown: '° W' },
  degE: { dimension: 'variation', size: -1, shown: '° E' },
  rpm: { dimension: 'rotation', size: 1, shown: 'rpm' },
  V: { dimension: 'voltage', size: 1, shown: 'V' },
  A: { dimension: 'current', size: 1, shown: 'A' },
  'N m': { dimension: 'torque', size: 1, shown: 'N m' },
  'ft lb': { dimension: 'torque', size: POUND * 9.80665 * 0.3048, shown: 'ft lb' },
  'kg/h': { dimension: 'fuel flow by weight', size: 1, shown: 'kg/h' },
  'lb/h': { dimension: 'fuel flow by weight', size: POUND, shown: 'lb/h' },
  'l/h': { dimension: 'fuel flow by volume', size: 1, shown: 'l/h' },
  'usgal/h': { dimension: 'fuel flow by volume', size: GALLON, shown: 'US gal/h' },
  s: { dimension: 'duration', size: 1, shown: 's' },
  min: { dimension: 'duration', size: 60, shown: 'min' },
  percentMac: { dimension: 'mac', size: 1, shown: '% MAC' },
  percent: { dimension: 'percent', size: 1, shown: '%' },
  trim: { dimension: 'trim', size: 1, shown: 'units' },
  index: { dimension: 'index', size: 1, shown: 'index units' },
  none: { dimension: 'none', size: 1, shown: '' },
} as const satisfies Record<string, UnitEntry>

export type Unit = keyof typeof UNITS
export const UNIT_NAMES = Object.keys(UNITS) as Unit[]

export function isUnit(text: string): text is Unit {
  return Object.hasOwn(UNITS, text)
}

export function dimensionOf(unit: Unit): string {
  return UNITS[unit].dimension
}

/** Whether a value in one unit can be given in the other. */
export function fits(from: Unit, to: Unit): boolean {
  return dimensionOf(from) === dimensionOf(to)
}

/** As on the screen: "% MAC". */
export function showUnit(unit: Unit): string {
  return UNITS[unit].shown
}

/** A value in another unit of the same dimension; units that do not fit are a bug here (packs and inputs are checked). */
export function convert(value: number, from: Unit, to: Unit): number {
  if (from === to) return value
  if (!fits(from, to)) throw new Error(`${from} is no ${dimensionOf(to)}`)
  const [a, b]: readonly UnitEntry[] = [UNITS[from], UNITS[to]]
  if (!a || !b) throw new Error('unknown unit')
  return (value * a.size + (a.offset ?? 0) - (b.offset ?? 0)) / b.size
}
