import jstat from 'jstat'
import { describe, expect, test } from 'vitest'
import { seeded } from '../../../src/kernel/seeded.ts'
import { fallingShares, lengthHeld, lengthHeldOf, medianOf, shareOf } from '../../../src/kernel/statistics/intervals.ts'

describe('a share with its interval', () => {
  test.each([
    // Newcombe 1998, Statistics in Medicine 17, table I, method 3 (from memory).
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
    // Cars of 25 miles a gallon and more among 32, RPubs 1367507 (looked up).
    [6, 32, 0.0889, 0.3531],
  ])('%i of %i', (right, n, low, high) => {
    const share = shareOf(right, n)
    expect(share.value).toBe(right / n)
    expect(share.low).toBeCloseTo(low, 4)
    expect(share.high).toBeCloseTo(high, 4)
  })

  test('its ends are where the score test has just 5 %, by the quantile of a statistics library', () => {
    const z = jstat.normal.inv(0.975, 0, 1)
    for (const [right, n] of [
      [3, 10],
      [45, 50],
      [199, 400],
      [18, 20],
      [1, 80],
    ] as const) {
      for (const end of [shareOf(right, n).low ?? 0, shareOf(right, n).high ?? 0]) {
        const score = Math.abs(right / n - end) / Math.sqrt((end * (1 - end)) / n)
        expect(score).toBeCloseTo(z, 6)
      }
    }
  })

  test('of none, and of all, ends there', () => {
    expect(shareOf(0, 12).low).toBe(0)
    expect(shareOf(12, 12).high).toBe(1)
  })

  test('none is no share', () => {
    expect(shareOf(0, 0)).toEqual({ n: 0, value: undefined, low: undefined, high: undefined })
  })
})

describe('a median with its interval', () => {
  test.each([
    // Ranks of the sign test's 95 % interval: Conover, Practical Nonparametric Statistics, table A3 (from memory).
    [6, 1, 6],
    [10, 2, 9],
    [20, 6, 15],
    [25, 8, 18],
    [50, 18, 33],
  ])('of %i values lies between the ranks %i and %i', (n, low, high) => {
    const values = Array.from({ length: n }, (_, index) => n - index)
    expect(medianOf(values)).toMatchObject({ low, high })
  })

  test('of five values nothing bounds it so surely', () => {
    expect(medianOf([5, 3, 4, 1, 2])).toEqual({ n: 5, value: 3, low: undefined, high: undefined })
  })

  test('the ranks leave at most 2.5 % on either side, by the binomial of a statistics library, and one more would not', () => {
    for (const n of [7, 12, 33, 64]) {
      const { low = 0 } = medianOf(Array.from({ length: n }, (_, index) => index + 1))
      const upTo = (rank: number) => jstat.binomial.cdf(rank - 1, n, 0.5)
      expect(upTo(low)).toBeLessThanOrEqual(0.025)
      expect(upTo(low + 1)).toBeGreaterThan(0.025)
    }
  })

  test('the middle is that of a statistics library', () => {
    const chance = seeded(4)
    for (const n of [1, 2, 9, 40]) {
      const values = Array.from({ length: n }, () => chance.below(10_000))
      expect(medianOf(values).value).toBe(jstat.median(values))
    }
  })

  test('thousands of values do not break its sums', () => {
    const { low = 0, high = 0 } = medianOf(Array.from({ length: 20_000 }, (_, index) => index + 1))
    // n/2 - 0.98 sqrt(n): the normal approximation of the same ranks.
    expect(Math.abs(low - (10_000 - 0.98 * Math.sqrt(20_000)))).toBeLessThan(2)
    expect(low + high).toBe(20_001)
  })
})

describe('the length of read-backs that is held', () => {
  const at = (length: number, right: number, n: number) => ({ length, right, n })

  test('shares that rise with length are taken together with what they rise above', () => {
    // By hand: 6 of 10 and 9 of 10 are 15 of 20; 15 of 20 and 10 of 10 are 25 of 30.
    expect(fallingShares([at(1, 10, 10), at(2, 6, 10), at(3, 9, 10), at(4, 10, 10), at(5, 1, 10)])).toEqual([
      1,
      25 / 30,
      25 / 30,
      25 / 30,
      0.1,
    ])
  })

  test('is the greatest at which nine in ten are right', () => {
    expect(lengthHeld([at(1, 20, 20), at(2, 19, 20), at(3, 18, 20), at(4, 12, 20)], 0.9)).toBe(3)
    expect(lengthHeld([at(2, 1, 20)], 0.9)).toBeUndefined()
  })

  test('its interval is that of samples drawn from the trials themselves', () => {
    const trials = [at(2, 60, 60), at(3, 60, 60), at(4, 56, 60), at(5, 40, 60)]
    const { value, low = 0, high = 0 } = lengthHeldOf(trials, 0.9, 1)
    // The same by the library's quantiles over draws of another generator's seed.
    const chance = seeded(99)
    const drawn = Array.from({ length: 400 }, () => {
      const again = trials.map(({ length, right, n }) =>
        at(length, Array.from({ length: n }, () => chance.next() < right / n).filter((one) => one).length, n),
      )
      return lengthHeld(again, 0.9) ?? 0
    }).sort((one, other) => one - other)
    expect(value).toBe(4)
    expect([low, high]).toEqual(jstat.quantiles(drawn, [0.025, 0.975]))
  })

  test('the same trials give the same interval each time', () => {
    const trials = [at(2, 9, 10), at(4, 7, 10)]
    expect(lengthHeldOf(trials, 0.9, 1)).toEqual(lengthHeldOf(trials, 0.9, 1))
  })
})
