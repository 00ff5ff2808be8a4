import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { KindSpec, Value } from '../../../src/kernel/kinds/kind.ts'
import { plausibleMistake } from '../../../src/kernel/kinds/table.ts'
import { seeded } from '../../../src/kernel/seeded.ts'

const CASES: readonly (readonly [name: string, spec: KindSpec, value: Value, like: RegExp])[] = [
  ['a transponder code stays octal', { kind: 'digits', length: 4, highest: 7 }, '7777', /^[0-7]{4}$/],
  ['a code has another digit', { kind: 'digits', length: 4 }, '4271', /^\d{4}$/],
  ['a level is a thousand off', { kind: 'altitude', unit: 'ft' }, 5000, /^(4000|6000)$/],
  ['a flight level is ten off', { kind: 'flightLevel' }, 80, /^(70|90)$/],
  ['a heading is ten off, and stays one', { kind: 'heading' }, 360, /^350$/],
  ['a speed is ten off', { kind: 'speed' }, 210, /^(200|220)$/],
  ['a Mach number is a hundredth off', { kind: 'mach' }, 0.78, /^0.7[79]$/],
  ['a setting in hectopascals is one off', { kind: 'altimeter', unit: 'hPa' }, 1009, /^(1008|1010)$/],
  ['a setting in inches is a hundredth off', { kind: 'altimeter', unit: 'inHg' }, 29.92, /^(29.91|29.93)$/],
  ['a frequency is a tenth off', { kind: 'frequency' }, 119.35, /^(119.25|119.45)$/],
  ['a frequency keeps its last digits', { kind: 'frequency' }, 124.675, /^(124.575|124.775)$/],
  ['a runway is the parallel one', { kind: 'runway' }, '27L', /^27R$/],
  ['a runway is the other end', { kind: 'runway' }, '24', /^06$/],
  ['a runway is the other end of the north', { kind: 'runway' }, '36', /^18$/],
  ['a holding point is the next', { kind: 'identifier' }, 'C3', /^C[45]$/],
  ['a taxiway is another letter', { kind: 'identifier' }, 'Z', /^[ABC]$/],
  ['a route has one other taxiway', { kind: 'route' }, 'B E C', /^([C-E] E C|B [F-H] C|B E [D-F])$/],
  [
    'a position is another one',
    { kind: 'choice', options: { north: [], east: [], west: [] } },
    'east',
    /^(north|west)$/,
  ],
]

test.each(CASES)('%s', (_, spec, value, like) => {
  fc.assert(
    fc.property(fc.nat(), (seed) => {
      const other = plausibleMistake(spec, value, seeded(seed))
      expect(String(other)).toMatch(like)
      expect(other).not.toBe(value)
      expect(typeof other).toBe(typeof value)
    }),
  )
})

test.each<readonly [string, KindSpec, Value]>([
  ['the letter of the information', { kind: 'identifier', form: 'letter' }, 'K'],
  ['a call sign', { kind: 'callsign', telephony: ['Lantern'] }, 'LANTERN 421'],
  ['a choice of one', { kind: 'choice', options: { only: ['only'] } }, 'only'],
])('%s is not mistaken', (_, spec, value) => {
  expect(plausibleMistake(spec, value, seeded(1))).toBeUndefined()
})
