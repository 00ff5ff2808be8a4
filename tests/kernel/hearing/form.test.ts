import { describe, expect, it } from 'vitest'
import { saidForm } from '../../../src/kernel/hearing/form.ts'
import type { KindSpec } from '../../../src/kernel/kinds/kind.ts'
import type { Least } from '../../../src/kernel/response/expansion.ts'

const TRIM: KindSpec = { kind: 'trim', decimals: 1 }
const CODE: KindSpec = { kind: 'digits', length: 4 }
const SPEED: KindSpec = { kind: 'speed' }
const HPA: KindSpec = { kind: 'altimeter', unit: 'hPa' }

const ROWS: readonly (readonly [shapes: readonly KindSpec[], text: string, form: string])[] = [
  [[TRIM], '', 'none'],
  [[TRIM], 'five', 'half'],
  [[TRIM], 'five point', 'half'],
  [[TRIM], 'five point two', 'half'],
  [[TRIM], 'five point two up', 'whole'],
  [[TRIM], 'five point two nose', 'half'],
  [[TRIM], 'six point one down set', 'whole'],
  [[CODE], 'four two', 'half'],
  [[CODE], 'four two seven one', 'whole'],
  [[CODE], 'forty two seventy one', 'whole'],
  [[SPEED], 'one two', 'half'],
  [[SPEED], 'one twenty eight', 'whole'],
  [[SPEED, SPEED], 'v one one two eight', 'half'],
  [[SPEED, SPEED], 'v one one two eight rotate one three one', 'whole'],
  [[HPA], 'one zero one', 'half'],
  [[HPA], 'ten thirteen', 'whole'],
  [[TRIM], 'stand by', 'whole'],
  [[], 'closed', 'whole'],
  [[], 'closed and', 'half'],
  [[], 'not', 'half'],
]

const WEIGHT: KindSpec = { kind: 'weight', unit: 'kg' }
const INCHES: KindSpec = { kind: 'altimeter', unit: 'inHg' }
const ONE = { values: 1, parts: 0 }
const WORDS = { values: 0, parts: 0 }
const TWO_PARTS = { values: 0, parts: 2 }

const FULL: readonly (readonly [shapes: readonly KindSpec[], least: Least, text: string, form: string])[] = [
  [[TRIM], ONE, 'five point two up', 'full'],
  [[TRIM], ONE, 'five point two', 'half'],
  [[TRIM], ONE, 'stand by', 'whole'],
  [[CODE], ONE, 'four two seven one', 'full'],
  // A fifth digit may follow.
  [[WEIGHT], ONE, 'two four three six', 'whole'],
  [[SPEED, SPEED], { values: 2, parts: 0 }, 'v one one two eight', 'half'],
  [[SPEED, SPEED], { values: 2, parts: 0 }, 'v one one two eight rotate one three one', 'full'],
  // Either setting is an answer.
  [[HPA, INCHES], ONE, 'one zero one three', 'full'],
  [[HPA, INCHES], ONE, 'two niner eight zero', 'full'],
  [[HPA, INCHES], ONE, 'two niner eight', 'half'],
  [[], WORDS, 'beacon on', 'full'],
  [[], WORDS, 'not', 'half'],
  // The other word may follow.
  [[], WORDS, 'signs', 'whole'],
  [[], TWO_PARTS, 'brake set', 'whole'],
]

describe('whether an answer is whole in form', () => {
  it.each(FULL)('for %j, which has at least %j, "%s" is %s', (shapes, least, text, form) => {
    expect(saidForm({ shapes, least, yesNo: false }, text)).toBe(form)
  })

  it.each(ROWS)('for %j, "%s" is %s', (shapes, text, form) => {
    expect(saidForm({ shapes, yesNo: false }, text)).toBe(form)
  })

  it('is the same for every value of the same length', () => {
    for (const text of ['zero zero zero zero', 'nine nine nine nine', 'one two three four']) {
      expect(saidForm({ shapes: [CODE], yesNo: false }, text)).toBe('whole')
    }
  })
})
