import { expect, test } from 'vitest'
import { formatNumber } from '../../../src/kernel/figures/format.ts'

test.each([
  [28412.5, '28,412.5'],
  [-999, '-999'],
  [-28412, '-28,412'],
  [1e12, '1,000,000,000,000'],
  [-0, '0'],
  [-1e308, '-1e+308'],
  [1e21, '1e+21'],
  [Number.POSITIVE_INFINITY, 'Infinity'],
  [Number.NaN, 'NaN'],
])('%d is written %s', (value, shown) => {
  expect(formatNumber(value)).toBe(shown)
})
