import { describe, expect, test } from 'vitest'
import { seeded } from '../../../src/kernel/seeded.ts'
import { kappaOf, LINEAR, QUADRATIC, ratingTable, UNWEIGHTED } from '../../../src/kernel/statistics/kappa.ts'

/** Of 20 people by the second and third rater, on steps 1 to 6 of which nobody gave the fifth: `anxiety` of R's irr. */
const ANXIETY_2 = [3, 6, 4, 6, 2, 4, 2, 4, 3, 3, 2, 3, 3, 3, 2, 2, 1, 3, 3, 4]
const ANXIETY_3 = [2, 1, 4, 4, 3, 2, 1, 6, 1, 1, 1, 2, 3, 3, 1, 1, 3, 3, 2, 2]
const GIVEN = [1, 2, 3, 4, 6]
const anxiety = ratingTable(
  ANXIETY_2.map((step, at) => [GIVEN.indexOf(step), GIVEN.indexOf(ANXIETY_3[at] ?? 0)] as const),
  GIVEN.length,
)

describe('kappa', () => {
  test.each([
    // Output of SAS, as the tests of statsmodels have it (tests/test_inter_rater.py, looked up).
    ['unweighted', UNWEIGHTED, 0.4842, 0.138, 0.2137, 0.7547],
    ['linear', LINEAR, 0.4701, 0.1457, 0.1845, 0.7558],
  ] as const)('%s, its error and its interval are those of SAS', (_, weight, value, error, low, high) => {
    const table = [
      [0, 4, 1],
      [0, 8, 0],
      [0, 1, 5],
    ]
    const kappa = kappaOf(table, weight)
    expect(kappa.value).toBeCloseTo(value, 4)
    expect(kappa.standardError).toBeCloseTo(error, 4)
    expect(kappa.low).toBeCloseTo(low, 4)
    expect(kappa.high).toBeCloseTo(high, 4)
  })

  test.each([
    // Output of kappa2 of R's irr, as the tests of statsmodels have it (looked up).
    ['unweighted', UNWEIGHTED, -0.006289308],
    ['linear', LINEAR, 0.1459075],
    ['quadratic', QUADRATIC, 0.2520325],
  ] as const)('%s is that of R', (_, weight, value) => {
    expect(kappaOf(anxiety, weight).value).toBeCloseTo(value, 6)
  })

  test('with weights of one’s own is that of Fleiss, Cohen and Everitt (1969), table 1, with its error', () => {
    // From memory: kappa 0.429, variance 0.002885; weighted 0.5071, variance 0.003248.
    const table = [
      [106, 10, 4],
      [22, 28, 10],
      [2, 12, 6],
    ]
    const weights = [
      [1, 0, 0.4444],
      [0, 1, 0.6667],
      [0.4444, 0.6667, 1],
    ]
    const plain = kappaOf(table, UNWEIGHTED)
    const own = kappaOf(table, (one, other) => weights[one]?.[other] ?? 0)
    expect(plain.value).toBeCloseTo(0.429, 3)
    expect((plain.standardError ?? 0) ** 2).toBeCloseTo(0.002885, 6)
    expect(own.value).toBeCloseTo(0.5071, 4)
    expect((own.standardError ?? 0) ** 2).toBeCloseTo(0.003248, 6)
  })

  test('quadratic is the correlation where both gave each step as often (Cohen 1968)', () => {
    const table = [
      [4, 1, 0],
      [1, 2, 2],
      [0, 2, 3],
    ]
    // By hand: 15 pairs, means 1, variances 10/15 and covariance 7/15.
    expect(kappaOf(table, QUADRATIC).value).toBeCloseTo(7 / 10, 10)
  })

  test('its interval holds the true one in about 95 of 100 samples of 200 pairs', () => {
    const chance = seeded(12)
    // The second says the same as the first in half of the cases, else any of the five: kappa is one half.
    const samples = Array.from({ length: 400 }, () => {
      const pairs = Array.from({ length: 200 }, () => {
        const one = chance.below(5)
        return [one, chance.next() < 0.5 ? one : chance.below(5)] as const
      })
      const { low = 1, high = -1 } = kappaOf(ratingTable(pairs, 5), UNWEIGHTED)
      return low <= 0.5 && 0.5 <= high
    })
    const held = samples.filter((one) => one).length / samples.length
    expect(held).toBeGreaterThan(0.92)
    expect(held).toBeLessThan(0.98)
  })

  test('is nothing where both always gave one step, and without pairs', () => {
    const none = { value: undefined, low: undefined, high: undefined, standardError: undefined }
    for (const weight of [UNWEIGHTED, LINEAR, QUADRATIC]) {
      expect(
        kappaOf(
          ratingTable(
            [
              [2, 2],
              [2, 2],
            ],
            5,
          ),
          weight,
        ),
      ).toEqual({ n: 2, ...none })
      expect(kappaOf(ratingTable([], 5), weight)).toEqual({ n: 0, ...none })
    }
  })

  test('is one, without an interval, where no pair differs; and zero where one of them gave always the same', () => {
    const same = kappaOf(
      ratingTable(
        [
          [1, 1],
          [3, 3],
          [3, 3],
        ],
        5,
      ),
      UNWEIGHTED,
    )
    expect(same.value).toBeCloseTo(1, 10)
    expect(same.low).toBeUndefined()
    expect(
      kappaOf(
        ratingTable(
          [
            [2, 2],
            [2, 3],
            [2, 1],
          ],
          5,
        ),
        UNWEIGHTED,
      ).value,
    ).toBeCloseTo(0, 10)
  })

  test('a step that there is not is refused', () => {
    expect(() => ratingTable([[5, 0]], 5)).toThrow('steps are 0 to 4')
  })
})
