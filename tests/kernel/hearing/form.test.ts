import { describe, expect, it } from 'vitest'
import { saidForm } from '../../../src/kernel/hearing/form.ts'
import type { KindSpec } from '../../../src/kernel/kinds/kind.ts'

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

describe('whether an answer is whole in form', () => {
  it.each(ROWS)('for %j, "%s" is %s', (shapes, text, form) => {
    expect(saidForm({ shapes, yesNo: false }, text)).toBe(form)
  })

  it('is the same for every value of the same length', () => {
    for (const text of ['zero zero zero zero', 'nine nine nine nine', 'one two three four']) {
      expect(saidForm({ shapes: [CODE], yesNo: false }, text)).toBe('whole')
    }
  })
})
