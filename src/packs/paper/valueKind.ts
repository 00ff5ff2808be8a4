/** Which kind of value words on paper ask for: the unit decides where there is one, else what is asked for. */

import type { Accept, KindSpec } from '../../kernel/kinds/kind.ts'
import type { Unit } from '../../kernel/units.ts'
import type { WrittenUnit } from './answerWords.ts'

/** A kind with the unit that figures.yaml names beside it, and how it is called for the author. */
export interface ValueKind {
  readonly spec: KindSpec
  /** For kinds that leave the unit open. */
  readonly unit?: Unit
  readonly called: string
  /** What is still open about it. */
  readonly open?: string
}

export interface Wanted {
  /** Of what is asked for: "takeoff trim". */
  readonly label: string
  /** Its own name where the answer has one: "v1". */
  readonly named?: string
  readonly kind: ValueKind
  /** Left out: it is entered with each departure. */
  readonly constant?: number | string
  readonly accept?: Accept
  /** What is a guess about it. */
  readonly doubts: readonly string[]
}

const TRIM = (decimals: number): ValueKind => ({
  spec: { kind: 'trim', decimals, axis: 'pitch', min: -20, max: 20 },
  called: `a trim with ${decimals === 1 ? 'one decimal' : `${decimals} decimals`}`,
})
const integer = (called: string, unit?: Unit, open?: string): ValueKind => ({
  spec: { kind: 'integer' },
  called,
  ...(unit && { unit }),
  ...(open && { open }),
})

/** By the unit; `shown` is how many decimals the paper shows, 0 where it shows none. */
function byUnit(
  dimension: WrittenUnit['dimension'],
  has: (...words: string[]) => boolean,
  shown: number,
): ValueKind | undefined {
  const numeric = (called: string, unit: Unit): ValueKind =>
    shown > 0 ? { spec: { kind: 'decimal', decimals: shown }, unit, called } : integer(called, unit)
  switch (dimension) {
    case 'speed':
      return { spec: { kind: 'speed' }, called: 'a speed in knots' }
    case 'kg':
    case 'lb':
      return { spec: { kind: 'weight', unit: dimension }, called: `a weight in ${dimension}` }
    case 'trim':
      return TRIM(shown || 1)
    case 'hPa':
    case 'inHg':
      return { spec: { kind: 'altimeter', unit: dimension }, called: `an altimeter setting in ${dimension}` }
    case 'inches':
      return has('altimeter', 'altimeters', 'qnh')
        ? { spec: { kind: 'altimeter', unit: 'inHg' }, called: 'an altimeter setting in inHg' }
        : { spec: { kind: 'decimal', decimals: shown || 1 }, unit: 'none', called: 'a number of inches' }
    case 'ft':
      return { spec: { kind: 'altitude' }, called: 'an altitude in feet' }
    case 'celsius':
      return { spec: { kind: 'temperature', unit: 'C' }, called: 'a temperature in Celsius' }
    case 'fahrenheit':
      return { spec: { kind: 'temperature', unit: 'F' }, called: 'a temperature in Fahrenheit' }
    case 'percent':
      return has('cg', 'mac')
        ? MAC(shown)
        : { spec: { kind: 'decimal', decimals: shown, unit: 'percent' }, unit: 'percent', called: 'a percentage' }
    case 'mac':
      return MAC(shown)
    case 'usgal':
      return numeric('a number of US gallons', 'usgal')
    case 'l':
      return numeric('a number of liters', 'l')
    case 'frequency':
      return { spec: { kind: 'frequency' }, called: 'a frequency' }
    case 'mach':
      return { spec: { kind: 'mach' }, called: 'a Mach number' }
    case 'time':
      return { spec: { kind: 'time' }, called: 'a time of four digits' }
    case 'degrees':
      return has('flap', 'flaps') ? FLAP : has('heading', 'course', 'track') ? HEADING : undefined
    case 'level':
      return { spec: { kind: 'flightLevel' }, called: 'a flight level' }
    case 'count':
      return numeric('a number', 'none')
  }
}

const MAC = (shown: number): ValueKind => ({
  spec: { kind: 'decimal', decimals: shown || 1 },
  unit: 'percentMac',
  called: 'a centre of gravity in % MAC',
})
const FLAP = integer('a whole number', undefined, 'for named positions make it a choice with its options')
const HEADING: ValueKind = { spec: { kind: 'heading' }, called: 'a heading' }

interface Rule {
  readonly words: readonly string[]
  readonly kind: (shown: number, weight: 'kg' | 'lb') => ValueKind
}

/** By what is asked for, the more telling words first. */
const RULES: readonly Rule[] = [
  {
    words: ['qnh', 'qfe', 'altimeter', 'altimeters', 'baro'],
    kind: (shown) => ({
      spec: { kind: 'altimeter', unit: shown === 2 ? 'inHg' : 'hPa' },
      called: `an altimeter setting in ${shown === 2 ? 'inHg' : 'hPa'}`,
    }),
  },
  { words: ['trim', 'trims', 'stab', 'stabilizer', 'stabiliser'], kind: (shown) => TRIM(shown || 1) },
  {
    words: ['squawk', 'transponder', 'xpdr', 'code'],
    kind: () => ({ spec: { kind: 'digits', length: 4, highest: 7 }, called: 'a code of four digits, 0 to 7' }),
  },
  { words: ['runway', 'rwy'], kind: () => ({ spec: { kind: 'runway' }, called: 'a runway' }) },
  {
    words: [
      'v1',
      'vr',
      'v2',
      'vref',
      'vapp',
      'vfto',
      'vse',
      'rotate',
      'rotation',
      'speed',
      'speeds',
      'airspeed',
      'bug',
      'bugs',
    ],
    kind: () => ({ spec: { kind: 'speed' }, called: 'a speed in knots' }),
  },
  { words: ['heading', 'hdg', 'course', 'track'], kind: () => HEADING },
  { words: ['flap', 'flaps', 'slats'], kind: () => FLAP },
  { words: ['frequency', 'freq', 'com', 'vhf'], kind: () => ({ spec: { kind: 'frequency' }, called: 'a frequency' }) },
  {
    words: ['oat', 'temperature', 'temp', 'itt', 'egt'],
    kind: () => ({ spec: { kind: 'temperature', unit: 'C' }, called: 'a temperature in Celsius' }),
  },
  {
    words: ['n1', 'n2', 'torque', 'thrust', 'percent'],
    kind: (shown) => ({
      spec: { kind: 'decimal', decimals: shown || 1, unit: 'percent' },
      unit: 'percent',
      called: `a percentage with ${shown || 1} decimal${shown > 1 ? 's' : ''}`,
    }),
  },
  { words: ['cg', 'mac', 'gravity'], kind: (shown) => MAC(shown) },
  { words: ['persons', 'pob', 'souls', 'passengers', 'pax', 'people'], kind: () => integer('a whole number') },
  {
    words: ['weight', 'zfw', 'tow', 'gw', 'mass', 'fuel', 'payload'],
    kind: (_, weight) => ({ spec: { kind: 'weight', unit: weight }, called: `a weight in ${weight}` }),
  },
  {
    words: ['altitude', 'elevation', 'minimums', 'minima', 'mda', 'da', 'dh'],
    kind: () => ({ spec: { kind: 'altitude' }, called: 'an altitude in feet' }),
  },
  { words: ['wind'], kind: () => ({ spec: { kind: 'wind' }, called: 'a wind' }) },
  {
    words: ['atis', 'information'],
    kind: () => ({ spec: { kind: 'identifier', form: 'letter' }, called: 'a letter' }),
  },
  { words: ['stand', 'gate', 'taxiway'], kind: () => ({ spec: { kind: 'identifier' }, called: 'letters and digits' }) },
  { words: ['time', 'etd', 'eta', 'slot'], kind: () => ({ spec: { kind: 'time' }, called: 'a time of four digits' }) },
]

export interface Clues {
  /** Words of the challenge and the answer, in small letters. */
  readonly words: readonly string[]
  readonly unit: WrittenUnit | undefined
  /** Decimals that the paper shows. */
  readonly decimals: number
  /** The unit of weights in this text. */
  readonly weight: 'kg' | 'lb'
}

/** `isNamed`: the text says what it is; else nothing in it does, and it is taken for a number. */
export function valueKind({ words, unit, decimals, weight }: Clues): {
  readonly kind: ValueKind
  readonly isNamed: boolean
} {
  const has = (...wanted: string[]) => wanted.some((word) => words.includes(word))
  const named = unit && byUnit(unit.dimension, has, decimals)
  if (named) return { kind: named, isNamed: true }
  const rule = RULES.find((one) => has(...one.words))
  if (rule) return { kind: rule.kind(decimals, weight), isNamed: true }
  return { kind: plainNumber(decimals), isNamed: false }
}

export function plainNumber(decimals: number): ValueKind {
  return decimals > 0
    ? { spec: { kind: 'decimal', decimals }, called: `a number with ${decimals} decimal${decimals > 1 ? 's' : ''}` }
    : integer('a whole number')
}
