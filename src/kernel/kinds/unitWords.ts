/** Units as crews say them behind a number: "two eight volts", "one two hundred pounds per hour". */

import { ownOf } from '../own.ts'
import type { Unit } from '../units.ts'
import { type Affix, type Affixes, affixTable } from './reading.ts'

const PER_HOUR = ['per', 'hour', 'an']

/** Each word of what is said counts; none of them has to be said. */
const WORDS = {
  percent: ['percent', 'percents', 'per', 'cent', 'mac', 'n1'],
  V: ['volts', 'volt'],
  A: ['amps', 'amp', 'amperes', 'ampere'],
  C: ['degrees', 'degree', 'celsius', 'centigrade'],
  F: ['degrees', 'degree', 'fahrenheit'],
  psi: ['psi', 'pounds', 'pound'],
  bar: ['bar', 'bars'],
  hPa: ['hectopascals', 'hectopascal', 'millibars', 'millibar'],
  inHg: ['inches', 'inch'],
  rpm: ['rpm', 'revs', 'revolutions'],
  'N m': ['newton', 'metres', 'meters'],
  'ft lb': ['foot', 'feet', 'pounds', 'pound'],
  'kg/h': ['kilos', 'kilograms', ...PER_HOUR],
  'lb/h': ['pounds', 'pound', 'pph', ...PER_HOUR],
  'l/h': ['litres', 'liters', ...PER_HOUR],
  'usgal/h': ['gallons', 'gallon', 'gph', ...PER_HOUR],
  l: ['litres', 'litre', 'liters', 'liter'],
  usgal: ['gallons', 'gallon'],
  kg: ['kilos', 'kilograms', 'kilo', 'kilogram'],
  lb: ['pounds', 'pound'],
  ft: ['feet', 'foot'],
  s: ['seconds', 'second'],
  min: ['minutes', 'minute'],
} as const satisfies Partial<Record<Unit, readonly string[]>>

/** A unit that is said. */
export type SpokenUnit = keyof typeof WORDS
export const SPOKEN_UNITS = Object.keys(WORDS) as [SpokenUnit, ...SpokenUnit[]]

/** The unit as it is said; a share of the chord is said as any percentage. */
export function spokenUnit(unit: Unit): { readonly unit?: SpokenUnit } {
  if (unit === 'percentMac') return { unit: 'percent' }
  return Object.hasOwn(WORDS, unit) ? { unit: unit as SpokenUnit } : {}
}

const SIGNS: readonly (readonly [Affix, readonly string[]])[] = [
  [{ role: 'sign', sign: -1 }, ['minus']],
  [{ role: 'sign', sign: 1 }, ['plus']],
]

/** Where nothing says which unit a number has, any of these may stand behind it. */
const ANY = ['units', 'unit', 'psi', 'rpm', 'minutes', 'minute', ...WORDS.percent, 'degrees', 'degree']

const tables = new Map<SpokenUnit | undefined, Affixes>()

/** Words beside a number of this unit: its own, and those of others, which make it another amount. */
export function unitAffixes(unit: SpokenUnit | undefined): Affixes {
  const known = tables.get(unit)
  if (known) return known
  const own: readonly string[] = unit === undefined ? ANY : [...WORDS[unit], 'units', 'unit']
  const others = unit === undefined ? [] : Object.values(WORDS).flat()
  const made = affixTable([
    [{ role: 'otherUnit' }, others.filter((word) => !own.includes(word) && !SHARED.has(word))],
    [{ role: 'unit' }, own],
    ...SIGNS,
  ])
  tables.set(unit, made)
  return made
}

/** Words that say no unit by themselves. */
const SHARED: ReadonlySet<string> = new Set(['per', 'an', 'hour', 'cent', 'second', 'mac', 'n1'])

/** Of these words, those that are listened for: the ones that are said most, and that a dictionary has. */
const LISTENED_FOR: { readonly [U in SpokenUnit]?: readonly (typeof WORDS)[U][number][] } = {
  V: ['volts'],
  C: ['degrees', 'celsius'],
  F: ['degrees', 'fahrenheit'],
  psi: ['pounds'],
  bar: ['bar'],
  inHg: ['inches'],
  rpm: ['revolutions'],
  'ft lb': ['foot', 'pounds'],
  'kg/h': ['kilos', 'per', 'hour'],
  'lb/h': ['pounds', 'per', 'hour'],
  'l/h': ['liters', 'per', 'hour'],
  'usgal/h': ['gallons', 'per', 'hour'],
  l: ['liters'],
  usgal: ['gallons'],
  kg: ['kilos'],
  lb: ['pounds'],
  ft: ['feet'],
  s: ['seconds'],
  min: ['minutes'],
}

export const unitWords = (unit: SpokenUnit | undefined): readonly string[] => (unit && LISTENED_FOR[unit]) ?? []

/** A unit as it is asked for: "foot pounds". */
export const unitAloud = (unit: SpokenUnit): string => (LISTENED_FOR[unit] ?? [WORDS[unit][0]]).join(' ')

const SHORT: Readonly<Record<string, SpokenUnit>> = { kg: 'kg', kgs: 'kg', lb: 'lb', lbs: 'lb' }

/** The unit among these words, as it is said: "pounds" of "24620 lb"; undefined where none is named. */
export function unitAmong(words: readonly string[]): string | undefined {
  const named = words.flatMap((word) => {
    const short = ownOf(SHORT, word)
    if (short) return [unitAloud(short)]
    return Object.values(WORDS).some((own: readonly string[]) => own.includes(word)) ? [word] : []
  })
  return named.length === 0 ? undefined : [...new Set(named)].join(' ')
}
