import { describe, expect, it } from 'vitest'
import { completeness } from '../../../src/kernel/hearing/completeness.ts'
import type { KindSpec } from '../../../src/kernel/kinds/kind.ts'
import type { Least } from '../../../src/kernel/response/expansion.ts'

const TRIM: KindSpec = { kind: 'trim', decimals: 1 }
const CODE: KindSpec = { kind: 'digits', length: 4 }
const SPEED: KindSpec = { kind: 'speed' }
const HPA: KindSpec = { kind: 'altimeter', unit: 'hPa' }

const ROWS: readonly (readonly [shapes: readonly KindSpec[], text: string, form: string])[] = [
  [[TRIM], '', 'none'],
  [[TRIM], 'five', 'partial'],
  [[TRIM], 'five point', 'partial'],
  [[TRIM], 'five point two', 'partial'],
  [[TRIM], 'five point two up', 'complete'],
  [[TRIM], 'five point two nose', 'partial'],
  [[TRIM], 'six point one down set', 'complete'],
  [[CODE], 'four two', 'partial'],
  [[CODE], 'four two seven one', 'complete'],
  [[CODE], 'forty two seventy one', 'complete'],
  [[SPEED], 'one two', 'partial'],
  [[SPEED], 'one twenty eight', 'complete'],
  [[SPEED, SPEED], 'v one one two eight', 'partial'],
  [[SPEED, SPEED], 'v one one two eight rotate one three one', 'complete'],
  [[HPA], 'one zero one', 'partial'],
  [[HPA], 'ten thirteen', 'complete'],
  [[TRIM], 'stand by', 'complete'],
  [[], 'closed', 'complete'],
  [[], 'closed and', 'partial'],
  [[], 'not', 'partial'],
]

const WEIGHT: KindSpec = { kind: 'weight', unit: 'kg' }
const INCHES: KindSpec = { kind: 'altimeter', unit: 'inHg' }
const ONE = { values: 1, parts: 0 }
const WORDS = { values: 0, parts: 0 }
const TWO_PARTS = { values: 0, parts: 2 }

const FULL: readonly (readonly [shapes: readonly KindSpec[], least: Least, text: string, form: string])[] = [
  [[TRIM], ONE, 'five point two up', 'final'],
  [[TRIM], ONE, 'five point two', 'partial'],
  [[TRIM], ONE, 'stand by', 'complete'],
  [[CODE], ONE, 'four two seven one', 'final'],
  // A fifth digit may follow.
  [[WEIGHT], ONE, 'two four three six', 'complete'],
  [[SPEED, SPEED], { values: 2, parts: 0 }, 'v one one two eight', 'partial'],
  [[SPEED, SPEED], { values: 2, parts: 0 }, 'v one one two eight rotate one three one', 'final'],
  // Either setting is an answer.
  [[HPA, INCHES], ONE, 'one zero one three', 'final'],
  [[HPA, INCHES], ONE, 'two niner eight zero', 'final'],
  [[HPA, INCHES], ONE, 'two niner eight', 'partial'],
  [[], WORDS, 'beacon on', 'final'],
  [[], WORDS, 'not', 'partial'],
  // The other word may follow.
  [[], WORDS, 'signs', 'complete'],
  [[], TWO_PARTS, 'brake set', 'complete'],
]

describe('how complete an answer is', () => {
  it.each(FULL)('for %j, which has at least %j, "%s" is %s', (shapes, least, text, form) => {
    expect(completeness({ shapes, least, yesNo: false }, text)).toBe(form)
  })

  it.each(ROWS)('for %j, "%s" is %s', (shapes, text, form) => {
    expect(completeness({ shapes, yesNo: false }, text)).toBe(form)
  })

  it('is the same for every value of the same length', () => {
    for (const text of ['zero zero zero zero', 'nine nine nine nine', 'one two three four']) {
      expect(completeness({ shapes: [CODE], yesNo: false }, text)).toBe('complete')
    }
  })
})
