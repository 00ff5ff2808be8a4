/** A row of number words as one value or as several, cut only where one way to cut it makes sense. */

import { describe, expect, it } from 'vitest'
import type { KindSpec, Specs } from '../../../src/kernel/kinds/kind.ts'
import { tokensOf } from '../../../src/kernel/numbers/tokens.ts'
import { hasFormOf, isPlausible, readRun, splitRun } from '../../../src/kernel/response/runs.ts'
import type { RunAtom } from '../../../src/kernel/response/scan.ts'

const SPECS: Specs = {
  speed: { kind: 'speed' },
  trim: { kind: 'trim', decimals: 1 },
  level: { kind: 'altitude', unit: 'ft' },
  runway: { kind: 'runway' },
  code: { kind: 'digits', length: 4 },
  qnh: { kind: 'altimeter', unit: 'hPa' },
  frequency: { kind: 'frequency' },
  heading: { kind: 'heading' },
  count: { kind: 'integer' },
  stand: { kind: 'identifier' },
  name: { kind: 'choice', options: { corrie: ['corrie'] } },
  flap: { kind: 'choice', options: { '5': ['five'] } },
}
const STEPPED: KindSpec = { kind: 'integer', min: 3, max: 33, step: 5 }

const run = (text: string, looseHead = false, looseTail = false): RunAtom => ({
  ...{ type: 'run', tokens: tokensOf(text), looseHead, looseTail },
})
const specOf = (name: string) => SPECS[name] as KindSpec

/** The place of the figure before its words. */
function split(text: string, names: string, runsAhead = 0, labelled = false): string {
  const specs = names.split(' ').filter((name) => name !== '')
  const { pieces, doubt } = splitRun(run(text), specs.map(specOf), runsAhead, labelled)
  const written = pieces.map(({ place, tokens }) => `${place}: ${tokens.map((token) => token.text).join(' ')}`)
  return [...written, ...(doubt ? [doubt] : [])].join(' | ')
}

describe('a row of number words is cut', () => {
  it.each([
    ['one two eight one three four', 'speed speed', '0: one two eight | 1: one three four'],
    [
      'one two eight one three four one four one',
      'speed speed speed',
      '0: one two eight | 1: one three four | 2: one four one',
    ],
    ['one two eight knots one three four knots', 'speed speed', '0: one two eight knots | 1: one three four knots'],
    ['zero nine zero zero nine zero', 'heading heading', '0: zero nine zero | 1: zero nine zero'],
    ['two seven left five thousand', 'runway level', '0: two seven left | 1: five thousand'],
    ['five thousand feet two seven left', 'level runway', '0: five thousand feet | 1: two seven left'],
    ['one two one decimal five five thousand', 'frequency level', '0: one two one decimal five | 1: five thousand'],
    ['one zero one three four two seven one', 'qnh code', '0: one zero one three | 1: four two seven one'],
    ['five point two up one two eight', 'trim speed', '0: five point two up | 1: one two eight'],
  ])('"%s" for %s: %s', (text, names, pieces) => {
    expect(split(text, names)).toBe(pieces)
  })

  it.each([
    ['one two eight', 'speed speed', '0: one two eight | twoValues'],
    ['five six', 'count count', '0: five six | twoValues'],
    ['one two eight one three', 'speed speed', '0: one two eight one three | ambiguous'],
    ['five thousand two seven left', 'level runway', '0: five thousand two seven left | ambiguous'],
    ['two seven left five thousand', 'level runway', '0: two seven left five thousand'],
    ['one two eight one three four', '', ''],
  ])('nowhere where it can be cut in more than one way, or in none: "%s" for %s: %s', (text, names, pieces) => {
    expect(split(text, names)).toBe(pieces)
  })

  it('among no more figures than have no number of their own ahead', () => {
    const both = 'one two eight one three four'
    expect(split(both, 'speed speed speed', 1)).toBe('0: one two eight | 1: one three four')
    expect(split('one two eight', 'speed speed', 1)).toBe('0: one two eight')
  })

  it('nowhere after its label, if it is a value as it stands', () => {
    expect(split('one two eight', 'speed speed', 0, true)).toBe('0: one two eight')
    expect(split('one two eight one three four', 'speed speed', 0, true)).toBe('0: one two eight | 1: one three four')
  })
})

describe('a value said twice in a row', () => {
  it.each([
    ['one two eight one two eight', 'speed', '0: one two eight | 0: one two eight'],
    ['one two eight one three four', 'speed', '0: one two eight | 0: one three four'],
    ['four two seven one four two seven one', 'code', '0: four two seven one | 0: four two seven one'],
    ['128 128', 'speed', '0: 128 | 0: 128'],
    ['two seven left two seven left', 'runway', '0: two seven left | 0: two seven left'],
    ['five point two five point two', 'trim', '0: five point two | 0: five point two'],
    ['one zero one three four two seven one', 'code qnh', '0: one zero one three | 0: four two seven one'],
  ])('is two values of the same figure: "%s"', (text, names, pieces) => {
    expect(split(text, names)).toBe(pieces)
  })

  it.each([
    ['one one', 'count'],
    ['one two one two', 'code'],
    ['12 12', 'speed'],
    ['two seven two seven', 'runway'],
    ['five thousand to five thousand', 'level'],
    ['one two eight to one two eight', 'speed'],
    ['five thousand feet to five thousand feet', 'level'],
    ['one two one decimal five decimal five', 'frequency frequency'],
  ])('is not what has few words, or a "to" between: "%s"', (text, names) => {
    expect(split(text, names)).toBe(`0: ${text}`)
  })
})

it('a row of more than sixty words is no value', () => {
  const readings = (words: number) => readRun(run('five '.repeat(words)), specOf('count')).length
  expect(readings(60)).toBeGreaterThan(0)
  expect(readings(61)).toBe(0)
  const ones = 'one two eight '.repeat(21)
  expect(split(ones, 'speed speed')).toBe(`0: ${ones.trim()}`)
})

it('a "to" at an end is tried as a digit and as nothing', () => {
  const values = (...args: Parameters<typeof run>) => readRun(run(...args), specOf('count')).map(({ value }) => value)
  expect(values('to five', true)).toEqual([25, 5])
  expect(values('five to', false, true)).toEqual([52, 5])
  expect(values('five to')).toEqual([52])
})

it.each([
  [3, false],
  [5, true],
  [8, false],
  [30, true],
  [5.0000001, true],
  [33, false],
  [0, false],
  [35, false],
])('%d is on a scale from 3 to 33 in steps of 5: %s', (value, plausible) => {
  expect(isPlausible({ value, standard: true }, STEPPED)).toBe(plausible)
  expect(isPlausible({ value, standard: true, implausible: true }, STEPPED)).toBe(false)
})

it.each([
  ['corrie', 'name', true],
  ['five', 'name', false],
  ['five', 'flap', true],
  ['corrie', 'flap', false],
  ['alfa', 'stand', true],
  ['alfa', 'level', false],
  ['feet', 'level', true],
  ['left', 'runway', true],
  ['left', 'level', false],
])('"%s" may be of a %s: %s', (text, name, may) => {
  expect(hasFormOf(run(text), specOf(name))).toBe(may)
  expect(hasFormOf(run(text), undefined)).toBe(true)
})
