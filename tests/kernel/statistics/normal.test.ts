import jstat from 'jstat'
import { expect, test } from 'vitest'
import { normalBelow, normalQuantile } from '../../../src/kernel/statistics/normal.ts'

test('the normal distribution is that of a statistics library, and so is its inverse', () => {
  for (let z = -5; z <= 5; z += 0.37) expect(normalBelow(z)).toBeCloseTo(jstat.normal.cdf(z, 0, 1), 10)
  for (let p = 0.001; p < 1; p += 0.0137) expect(normalQuantile(p)).toBeCloseTo(jstat.normal.inv(p, 0, 1), 6)
  expect([normalBelow(-40), normalBelow(0), normalBelow(40)]).toEqual([0, 0.5, 1])
  expect(normalBelow(1.96)).toBeCloseTo(0.975, 4)
})
