/** What was said for a figure against it: doubt comes before any comparison. */

import { describe, expect, it } from 'vitest'
import type { Figure, Phraseology } from '../../../src/kernel/kinds/kind.ts'
import type { Reading } from '../../../src/kernel/kinds/reading.ts'
import { compare, compareAll } from '../../../src/kernel/response/compare.ts'
import type { Outcome } from '../../../src/kernel/response/outcome.ts'

const SPEED: Figure = { kind: 'speed', value: 128, accept: { tolerance: 5 } }
const TRIM: Figure = { kind: 'trim', decimals: 1, value: 5.2 }
const FREQUENCY: Figure = { kind: 'frequency', value: 121 }
const TENTHS: Figure = { kind: 'decimal', decimals: 1, value: 26 }
const CODE: Figure = { kind: 'digits', length: 4, value: '4271' }
const OFF_SCALE: Figure = { kind: 'speed', value: 2000 }
const SIGN: Figure = { kind: 'callsign', telephony: ['Tidewick'], value: 'TIDEWICK 421' }

const read = (value: number | string, more: Partial<Reading> = {}): Reading => ({ value, standard: true, ...more })
const said = (...readings: Reading[]) => ({ tokens: [], readings, negated: false })

/** "right 128", "wrong value 129", "lacking direction 5.2", "doubtful ambiguous", "implausible 2000". */
function written(outcome: Outcome): string {
  const reason = 'because' in outcome ? outcome.because : 'lacks' in outcome ? outcome.lacks : undefined
  return [outcome.is, reason, 'read' in outcome ? outcome.read : undefined]
    .filter((word) => word !== undefined)
    .join(' ')
}

describe('one value', () => {
  it.each<[string, Figure, Reading[], string]>([
    ['without any reading', SPEED, [], 'doubtful notUnderstood'],
    ['that nobody would understand first', SPEED, [read(128, { secondary: true })], 'doubtful notUnderstood'],
    ['that is the figure', SPEED, [read(128)], 'right 128'],
    ['that is the figure in another unit', SPEED, [read(128, { otherUnit: true })], 'wrong unit 128'],
    ['that can be two', SPEED, [read(128), read(140)], 'doubtful ambiguous'],
    ['that is said twice', SPEED, [read(128), read(128)], 'right 128'],
    ['that can be another one only off the scale', SPEED, [read(128), read(9000)], 'right 128'],
    ['that can be another one only if broken off', SPEED, [read(128), read(12, { lacks: 'digits' })], 'right 128'],
    ['that the scale does not have, and is the figure', OFF_SCALE, [read(2000)], 'right 2000'],
    ['that the scale does not have', SPEED, [read(9000)], 'implausible 9000'],
    ['that is wrong', SPEED, [read(140)], 'wrong value 140'],
    [
      'that is wrong, and right in a way nobody would understand',
      SPEED,
      [read(140), read(128, { secondary: true })],
      'wrong value 140',
    ],
    [
      'off the scale, and right in a way nobody would understand',
      SPEED,
      [read(9000), read(128, { secondary: true })],
      'doubtful ambiguous',
    ],
    [
      'off the scale, and wrong in a way nobody would understand',
      SPEED,
      [read(9000), read(140, { secondary: true })],
      'implausible 9000',
    ],
    ['off the scale in the first way, wrong in the second', SPEED, [read(9000), read(140)], 'wrong value 140'],
  ])('%s', (_, figure, readings, outcome) => {
    expect(written(compare(figure, said(...readings), 'plain'))).toBe(outcome)
  })

  it.each<[string, Figure, Reading, string]>([
    ['lacks its direction', TRIM, read(5.2, { lacks: 'direction' }), 'lacking direction 5.2'],
    ['lacks its direction, and is wrong', TRIM, read(6.2, { lacks: 'direction' }), 'wrong value 6.2'],
    ['off the scale lacks its direction, and is wrong', TRIM, read(500, { lacks: 'direction' }), 'wrong value 500'],
    ['lacks its decimals', TRIM, read(5, { lacks: 'decimals' }), 'lacking decimals 5'],
    ['lacks decimals of another number', TRIM, read(6, { lacks: 'decimals' }), 'wrong value 6'],
    ['lacks decimals of a longer number', TRIM, read(0.5, { lacks: 'decimals' }), 'wrong value 0.5'],
    ['has no decimals that must be said', FREQUENCY, read(121, { lacks: 'decimals' }), 'lacking decimals 121'],
    ['has only zeros left to say', TENTHS, read(26, { lacks: 'decimals' }), 'right 26'],
    ['breaks off before its zeros', TENTHS, read(26, { lacks: 'decimals', open: true }), 'lacking decimals 26'],
    ['has zeros left of another number', TENTHS, read(27, { lacks: 'decimals' }), 'wrong value 27'],
    ['lacks more than zeros', { ...TENTHS, value: 26.5 }, read(26, { lacks: 'decimals' }), 'lacking decimals 26'],
    ['lacks digits before its zeros', TENTHS, read(26, { lacks: 'digits' }), 'wrong value 26'],
    ['is an end of the code', CODE, read('427', { lacks: 'digits', digits: '427' }), 'doubtful notUnderstood'],
    ['is the other end of it', CODE, read('71', { lacks: 'digits', digits: '71' }), 'doubtful notUnderstood'],
    ['is a middle of it', CODE, read('27', { lacks: 'digits', digits: '27' }), 'wrong value 27'],
    ['has no digits of it', CODE, read('9', { lacks: 'digits' }), 'wrong value 9'],
    ['has its digits and is no code', CODE, read('4271', { lacks: 'digits', digits: '4271' }), 'wrong value 4271'],
  ])('that %s', (_, figure, reading, outcome) => {
    expect(written(compare(figure, said(reading), 'plain'))).toBe(outcome)
  })

  it('that was denied is wrong, whatever it is', () => {
    expect(compare(SPEED, { ...said(read(128)), negated: true }, 'plain')).toEqual({ is: 'wrong', because: 'value' })
  })

  it.each<[Phraseology, boolean, boolean]>([
    ['plain', false, true],
    ['standard', false, false],
    ['standard', true, true],
    ['verbatim', false, false],
  ])('in %s phraseology, said as it asks: %s, has its form: %s', (phraseology, standard, form) => {
    expect(compare(SPEED, said(read(128, { standard })), phraseology)).toMatchObject({ is: 'right', form })
    expect(compare(SIGN, said(read('TIDEWICK 421', { standard })), phraseology)).toMatchObject({ is: 'right', form })
  })
})

describe('a value of several pieces', () => {
  it.each<[string, Reading[], string]>([
    ['without any reading', [], 'doubtful notUnderstood'],
    ['that nobody would understand first', [read('TIDEWICK 421', { secondary: true })], 'doubtful notUnderstood'],
    ['that is the figure', [read('tidewick 421')], 'right TIDEWICK 421'],
    ['that can be two', [read('TIDEWICK 421'), read('TIDEWICK 4')], 'doubtful ambiguous'],
    [
      'that can be another one only off the scale',
      [read('TIDEWICK 4', { implausible: true }), read('TIDEWICK 421')],
      'right TIDEWICK 421',
    ],
    ['off the scale', [read('TIDEWICK 421', { implausible: true })], 'implausible TIDEWICK 421'],
    ['that is half said', [read('TIDEWICK', { lacks: 'digits' })], 'lacking digits TIDEWICK'],
    ['that is the end of one', [read('421', { lacks: 'digits', tail: true })], 'lacking digits'],
    ['that is an end of its digits', [read('TIDEWICK 42')], 'doubtful notUnderstood'],
    ['that is another', [read('TIDEWICK 422')], 'wrong value TIDEWICK 422'],
    [
      'that is another, and the figure in a way nobody would understand',
      [read('TIDEWICK 422'), read('TIDEWICK 421', { secondary: true })],
      'doubtful ambiguous',
    ],
    [
      'that is another, in a way nobody would understand too',
      [read('TIDEWICK 422'), read('TIDEWICK 423', { secondary: true })],
      'wrong value TIDEWICK 422',
    ],
  ])('%s', (_, readings, outcome) => {
    expect(written(compare(SIGN, said(...readings), 'plain'))).toBe(outcome)
  })
})

describe('all that was said for one figure', () => {
  const all = (...values: Reading[]) =>
    written(
      compareAll(
        SPEED,
        values.map((reading) => said(reading)),
        'plain',
      ),
    )
  const trims = (...values: Reading[]) =>
    written(
      compareAll(
        TRIM,
        values.map((reading) => said(reading)),
        'plain',
      ),
    )
  const [size, whole] = [read(5.2, { lacks: 'direction' }), read(5.2)]
  const start = read(5, { lacks: 'decimals' })

  it('is nothing, or the only value', () => {
    expect(all()).toBe('doubtful missing')
    expect(all(read(128))).toBe('right 128')
    expect(all(read(140))).toBe('wrong value 140')
  })

  it('is the same value, however often', () => {
    expect(all(read(128), read(128), read(128))).toBe('right 128')
    expect(all(read(140), read(140))).toBe('wrong value 140')
    expect(trims(size, size)).toBe('lacking direction 5.2')
  })

  it('is two values, even if both would do', () => {
    expect(all(read(128), read(140))).toBe('doubtful twoValues')
    expect(all(read(128), read(130))).toBe('doubtful twoValues')
    expect(all(read(140), read(141))).toBe('doubtful twoValues')
    expect(trims(size, start)).toBe('doubtful twoValues')
  })

  it('is in doubt where one of it is', () => {
    expect(all(read(128), read(9, { secondary: true }))).toBe('doubtful notUnderstood')
    expect(all(read(140), read(9, { secondary: true }), read(128))).toBe('doubtful notUnderstood')
  })

  it('is the whole value, where the rest goes as far as it goes', () => {
    expect(trims(whole, size)).toBe('right 5.2')
    expect(trims(start, whole, size)).toBe('right 5.2')
    expect(trims(size, read(6.2))).toBe('doubtful twoValues')
    expect(trims(size, whole, read(6.2))).toBe('doubtful twoValues')
    const wide: Figure = { ...TRIM, accept: { tolerance: 0.5 } }
    const values = [size, whole, read(5.3)].map((reading) => said(reading))
    expect(written(compareAll(wide, values, 'plain'))).toBe('doubtful twoValues')
  })
})
