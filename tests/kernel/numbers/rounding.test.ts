import { describe, expect, test } from 'vitest'
import { roundTo } from '../../../src/kernel/numbers/rounding.ts'

describe('rounding', () => {
  test.each([
    [5.15, 0.1, 'nearest', 5.2],
    [5.149999, 0.1, 'nearest', 5.1],
    [-5.15, 0.1, 'nearest', -5.2],
    [0.15 + 0.1, 0.1, 'nearest', 0.3],
    [1.005, 0.01, 'nearest', 1.01],
    [121.2, 1, 'up', 122],
    [121, 1, 'up', 121],
    [121.00000000001, 1, 'up', 121],
    [-0.3, 1, 'up', 0],
    [1013.9, 1, 'down', 1013],
    [1012.99999999999, 1, 'down', 1013],
    [29.918, 0.01, 'down', 29.91],
    [4.37, 0.5, 'nearest', 4.5],
    [28412, 10, 'nearest', 28410],
    [28415, 10, 'nearest', 28420],
    [7.8, 0.25, 'nearest', 7.75],
  ] as const)('%f to %f %s is %f', (value, step, direction, expected) => {
    expect(roundTo(value, { step, direction })).toBe(expected)
  })

  test('a step with more decimals than can be written is taken as far as they go', () => {
    expect(roundTo(5.2, { step: 1e-101, direction: 'nearest' })).toBe(5.2)
  })

  test('zero from below is zero', () => {
    expect(Object.is(roundTo(-0.2, { step: 1, direction: 'nearest' }), 0)).toBe(true)
  })
})
