import { describe, expect, it } from 'vitest'
import { type Figure, PHRASEOLOGIES } from '../../../src/kernel/kinds/kind.ts'
import { ALPHABET } from '../../../src/kernel/kinds/letters.ts'
import { isExactly, readValue, sayValue } from '../../../src/kernel/kinds/table.ts'
import { tokensOf } from '../../../src/kernel/numbers/tokens.ts'

function* range(from: number, to: number, step = 1): Generator<number> {
  for (let i = 0; from + i * step <= to + step / 2; i++) yield Number((from + i * step).toFixed(3))
}

const OPTIONS = { up: ['up', 'zero'], '1': ['one'], '5': ['five'], '15': ['fifteen'], '40': ['forty', 'full'] }

/** Every value of every kind. */
const ALL: Readonly<Record<string, () => Iterable<Figure>>> = {
  'percentages of 0 to 120.0': () =>
    map(range(0, 120, 0.1), (value) => ({ kind: 'decimal', decimals: 1, unit: 'percent', value })),
  'decimals with two places': () => map(range(-9.99, 9.99, 0.01), (value) => ({ kind: 'decimal', decimals: 2, value })),
  'pitch trims': () => map(range(-15, 15, 0.1), (value) => ({ kind: 'trim', decimals: 1, axis: 'pitch', value })),
  'pitch trims with two decimals': () => map(range(-9, 9, 0.01), (value) => ({ kind: 'trim', decimals: 2, value })),
  'rudder trims': () => map(range(-15, 15, 0.1), (value) => ({ kind: 'trim', decimals: 1, axis: 'yaw', value })),
  integers: () => map(range(0, 4000), (value) => ({ kind: 'integer', value })),
  speeds: () => map(range(0, 999), (value) => ({ kind: 'speed', value })),
  'Mach numbers': () => map(range(0.1, 1.5, 0.01), (value) => ({ kind: 'mach', value })),
  'Mach numbers with three decimals': () =>
    map(range(0.4, 1, 0.001), (value) => ({ kind: 'mach', decimals: 3, value })),
  'weights in kilograms': () => map(range(0, 99_990, 30), (value) => ({ kind: 'weight', unit: 'kg', value })),
  'weights said in thousands': () =>
    map(range(1000, 99_900, 100), (value) => ({ kind: 'weight', unit: 'lb', say: 'thousands', value })),
  temperatures: () => map(range(-99, 199), (value) => ({ kind: 'temperature', unit: 'C', value })),
  'all 4,096 transponder codes': () =>
    map(range(0, 4095), (n) => ({ kind: 'digits', length: 4, value: n.toString(8).padStart(4, '0') })),
  'altimeter settings in hPa': () => map(range(800, 1100), (value) => ({ kind: 'altimeter', unit: 'hPa', value })),
  'altimeter settings in inches': () =>
    map(range(25, 32, 0.01), (value) => ({ kind: 'altimeter', unit: 'inHg', value })),
  headings: () => map(range(1, 360), (value) => ({ kind: 'heading', value })),
  runways: () =>
    [...range(1, 36)].flatMap((n) =>
      ['', 'L', 'R', 'C'].map((side): Figure => ({ kind: 'runway', value: `${String(n).padStart(2, '0')}${side}` })),
    ),
  altitudes: () => map(range(0, 50_000, 50), (value) => ({ kind: 'altitude', unit: 'ft', value })),
  'flight levels': () => map(range(5, 660), (value) => ({ kind: 'flightLevel', value })),
  'frequencies of the 8.33 kHz raster': () => map(range(118, 136.99, 0.005), (value) => ({ kind: 'frequency', value })),
  times: () =>
    map(range(0, 1439), (n) => ({
      kind: 'time',
      value: `${String(Math.floor(n / 60)).padStart(2, '0')}${String(n % 60).padStart(2, '0')}`,
    })),
  identifiers: () =>
    Object.keys(ALPHABET).flatMap((letter) =>
      ['', '1', '9', '12'].map((n): Figure => ({ kind: 'identifier', value: letter + n })),
    ),
  choices: () => Object.keys(OPTIONS).map((value): Figure => ({ kind: 'choice', options: OPTIONS, value })),
}

function* map(values: Iterable<number>, make: (value: number) => Figure): Generator<Figure> {
  for (const value of values) yield make(value)
}

describe('what is said is read back as exactly the value', () => {
  describe.each(PHRASEOLOGIES)('in %s phraseology', (phraseology) => {
    it.each(Object.keys(ALL))('%s', (name) => {
      const off: unknown[] = []
      let count = 0
      for (const figure of ALL[name]?.() ?? []) {
        count++
        const words = sayValue(figure, phraseology)
        const readings = readValue(tokensOf(words), figure).filter(({ secondary }) => !secondary)
        const same =
          readings.length === 1 &&
          readings.every(({ value, lacks }) => isExactly(figure, value, figure.value) && !lacks)
        const standard = phraseology === 'plain' || readings.every((reading) => reading.standard)
        if (!same || !standard || /\d/.test(words)) off.push([figure.value, words, readings])
      }
      expect(off.slice(0, 5)).toEqual([])
      expect(count).toBeGreaterThan(4)
    })
  })
})
