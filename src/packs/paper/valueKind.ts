/** Which kind of value words on paper ask for: the unit decides where there is one, else what is asked for. */

import type { Accept, KindSpec } from '../../kernel/kinds/kind.ts'
import type { Unit } from '../../kernel/units.ts'
import { SPEED_NAMES, type WrittenUnit } from './answerWords.ts'

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

/** Whether one of these words stands around the value. */
type Has = (...words: string[]) => boolean
type TrimSide = 'up' | 'down' | 'left' | 'right'

const shownDecimals = (decimals: number) => (decimals === 1 ? 'one decimal' : `${decimals} decimals`)
/** Without a direction on the paper none has to be said. */
function trimOf(decimals: number, has: Has): ValueKind {
  const sides: readonly TrimSide[] = ['up', 'down', 'left', 'right']
  const side = sides.find((one) => has(one))
  if (!side)
    return {
      spec: { kind: 'decimal', decimals },
      unit: 'trim',
      called: `units of trim with ${shownDecimals(decimals)}`,
      open: 'the paper shows no direction, and none is asked for; where it goes up and down, or left and right, make it kind: trim with its axis',
    }
  const isPitch = side === 'up' || side === 'down'
  const axis = isPitch ? 'pitch' : has('aileron', 'ailerons', 'roll') ? 'roll' : 'yaw'
  return { spec: { kind: 'trim', decimals, axis, min: -20, max: 20 }, called: `a trim with ${shownDecimals(decimals)}` }
}
const integer = (called: string, unit?: Unit, open?: string): ValueKind => ({
  spec: { kind: 'integer' },
  called,
  ...(unit && { unit }),
  ...(open && { open }),
})

const measured = (called: string, unit: Unit, shown: number): ValueKind =>
  shown > 0 ? { spec: { kind: 'decimal', decimals: shown }, unit, called } : integer(called, unit)

/** By the unit; `shown` is how many decimals the paper shows, 0 where it shows none. */
function byUnit(dimension: WrittenUnit['dimension'], has: Has, shown: number): ValueKind | undefined {
  const numeric = (called: string, unit: Unit): ValueKind => measured(called, unit, shown)
  switch (dimension) {
    case 'speed':
      return { spec: { kind: 'speed' }, called: 'a speed in knots' }
    case 'kg':
    case 'lb':
      return { spec: { kind: 'weight', unit: dimension }, called: `a weight in ${dimension}` }
    case 'trim':
      return trimOf(shown || 1, has)
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
    case 'torque':
      return numeric('a torque in foot pounds', 'ft lb')
    case 'newtonMetres':
      return numeric('a torque in newton metres', 'N m')
    case 'poundsAnHour':
      return numeric('a fuel flow in pounds an hour', 'lb/h')
    case 'kilogramsAnHour':
      return numeric('a fuel flow in kilograms an hour', 'kg/h')
    case 'litresAnHour':
      return numeric('a fuel flow in litres an hour', 'l/h')
    case 'gallonsAnHour':
      return numeric('a fuel flow in US gallons an hour', 'usgal/h')
    case 'psi':
      return numeric('a pressure in psi', 'psi')
    case 'bar':
      return numeric('a pressure in bar', 'bar')
    case 'volts':
      return numeric('a voltage', 'V')
    case 'amps':
      return numeric('a current in amperes', 'A')
    case 'rpm':
      return numeric('a number of revolutions', 'rpm')
    case 'minutes':
      return numeric('a number of minutes', 'min')
    case 'seconds':
      return numeric('a number of seconds', 's')
    case 'count':
      return numeric('a number', 'none')
  }
}

const MAC = (shown: number): ValueKind => ({
  spec: { kind: 'decimal', decimals: shown || 1 },
  unit: 'percentMac',
  called: 'a centre of gravity in % MAC',
})
const ALTIMETER = (unit: 'hPa' | 'inHg'): ValueKind => ({
  spec: { kind: 'altimeter', unit },
  called: `an altimeter setting in ${unit}`,
})
const SETTING: ValueKind = {
  spec: { kind: 'digits', length: 4 },
  called: 'an altimeter setting',
  open: 'inches or hectopascals? The paper does not say; until you write kind: altimeter with its unit, inHg or hPa, it is entered and said as four digits, 2992 or 1013',
}
const FLAP = integer('a whole number', undefined, 'for named positions make it a choice with its options')
const HEADING: ValueKind = { spec: { kind: 'heading' }, called: 'a heading' }

interface Rule {
  readonly words: readonly string[]
  readonly kind: (shown: number, weight: 'kg' | 'lb', has: Has) => ValueKind
}

/** By what is asked for, the more telling words first. */
const RULES: readonly Rule[] = [
  {
    words: ['qnh', 'qfe', 'altimeter', 'altimeters', 'baro'],
    kind: (shown, _, has) => (shown === 2 ? ALTIMETER('inHg') : has('qnh', 'qfe') ? ALTIMETER('hPa') : SETTING),
  },
  { words: ['trim', 'trims', 'stab', 'stabilizer', 'stabiliser'], kind: (shown, _, has) => trimOf(shown || 1, has) },
  {
    words: ['squawk', 'transponder', 'xpdr', 'code'],
    kind: () => ({ spec: { kind: 'digits', length: 4, highest: 7 }, called: 'a code of four digits, 0 to 7' }),
  },
  { words: ['runway', 'rwy'], kind: () => ({ spec: { kind: 'runway' }, called: 'a runway' }) },
  {
    words: [...SPEED_NAMES.keys(), 'rotate', 'rotation', 'speed', 'speeds', 'airspeed', 'bug', 'bugs'],
    kind: () => ({ spec: { kind: 'speed' }, called: 'a speed in knots' }),
  },
  { words: ['heading', 'hdg', 'course', 'track'], kind: () => HEADING },
  { words: ['flap', 'flaps', 'slats'], kind: () => FLAP },
  { words: ['frequency', 'freq', 'com', 'vhf'], kind: () => ({ spec: { kind: 'frequency' }, called: 'a frequency' }) },
  {
    words: ['oat', 'temperature', 'temp', 'itt', 'egt'],
    kind: () => ({ spec: { kind: 'temperature', unit: 'C' }, called: 'a temperature in Celsius' }),
  },
  { words: ['rpm'], kind: () => integer('a number of revolutions', 'rpm') },
  { words: ['volts', 'voltage'], kind: (shown) => measured('a voltage', 'V', shown) },
  { words: ['amps', 'amperes'], kind: (shown) => measured('a current in amperes', 'A', shown) },
  { words: ['psi'], kind: (shown) => measured('a pressure in psi', 'psi', shown) },
  {
    words: ['torque'],
    kind: (shown) => ({
      ...plainNumber(shown),
      called: 'a torque',
      open: 'in which unit? The paper does not say; write unit: ft lb, N m or percent',
    }),
  },
  {
    words: ['n1', 'n2', 'n3', 'ng', 'np', 'nh', 'nl', 'thrust', 'percent'],
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
  if (rule) return { kind: rule.kind(decimals, weight, has), isNamed: true }
  return { kind: plainNumber(decimals), isNamed: false }
}

export function plainNumber(decimals: number): ValueKind {
  return decimals > 0
    ? { spec: { kind: 'decimal', decimals }, called: `a number with ${decimals} decimal${decimals > 1 ? 's' : ''}` }
    : integer('a whole number')
}
