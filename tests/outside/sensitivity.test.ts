/** Sensitivity against a general statistics library (jstat), and against listeners whose truth is known. */

import jstat from 'jstat'
import { describe, expect, it } from 'vitest'
import { caughtByDose, DOSES, nextDose } from '../../src/kernel/run/partner/dose.ts'
import { sensitivityOf } from '../../src/kernel/run/partner/sensitivity.ts'
import { type Seeded, seeded } from '../../src/kernel/seeded.ts'
import { normalQuantile } from '../../src/kernel/statistics/normal.ts'

describe('sensitivity and bias', () => {
  it('are the differences and the mean of the z of the corrected rates', () => {
    const z = (hits: number, of: number) => jstat.normal.inv((hits + 0.5) / (of + 1), 0, 1)
    for (const [faults, caught, sound, falseObjections] of [
      [20, 15, 60, 3],
      [40, 40, 40, 0],
      [7, 0, 90, 0],
      [1, 1, 1, 1],
    ] as const) {
      const { dPrime, bias } = sensitivityOf({ faults, caught, sound, falseObjections })
      expect(dPrime).toBeCloseTo(z(caught, faults) - z(falseObjections, sound), 6)
      expect(bias).toBeCloseTo(-(z(caught, faults) + z(falseObjections, sound)) / 2, 6)
    }
  })

  it('are not told without both kinds of chances', () => {
    expect(sensitivityOf({ faults: 0, caught: 0, sound: 9, falseObjections: 1 })).toEqual({
      hitRate: 0,
      falseRate: 1 / 9,
    })
    expect(sensitivityOf({ faults: 3, caught: 3, sound: 0, falseObjections: 0 }).dPrime).toBeUndefined()
  })
})

/** Equal variances, and a criterion between the two. */
function listener(dPrime: number, chance: Seeded) {
  const noise = () => normalQuantile(Math.min(1 - 1e-9, Math.max(1e-9, chance.next())))
  return (isFault: boolean) => noise() + (isFault ? dPrime : 0) > dPrime / 2
}

function heard(objects: (isFault: boolean) => boolean, faults: number, sound: number) {
  const count = (of: number, isFault: boolean) =>
    Array.from({ length: of }, () => objects(isFault)).filter(Boolean).length
  return { faults, caught: count(faults, true), sound, falseObjections: count(sound, false) }
}

describe('a listener', () => {
  it('who is ideal catches all, and one who never objects nothing', () => {
    expect(sensitivityOf(heard((isFault) => isFault, 40, 40))).toMatchObject({ hitRate: 1, falseRate: 0 })
    expect(sensitivityOf(heard(() => false, 40, 40))).toMatchObject({ hitRate: 0, falseRate: 0, dPrime: 0 })
  })

  it('with d prime 1.5 is estimated within 0.3 after 80 chances in two of three runs, and without a lean', () => {
    const runs = Array.from({ length: 600 }, (_, seed) => {
      const { dPrime = 0, within = 0 } = sensitivityOf(heard(listener(1.5, seeded(seed)), 40, 40))
      return { off: dPrime - 1.5, within }
    })
    const share = (is: (one: (typeof runs)[number]) => boolean) => runs.filter(is).length / runs.length
    // Binomial counts leave a standard error of 0.31: no formula of 80 yes-or-no answers does better.
    expect(share(({ off }) => Math.abs(off) <= 0.3)).toBeGreaterThan(0.62)
    expect(Math.abs(runs.reduce((sum, { off }) => sum + off, 0) / runs.length)).toBeLessThan(0.05)
    // What is told of how sure it is holds.
    expect(share(({ off, within }) => Math.abs(off) <= within)).toBeGreaterThan(0.93)
  })
})

describe('the dose', () => {
  const flown = (dPrime: number, runs: number) => {
    const objects = listener(dPrime, seeded(5))
    const past: (ReturnType<typeof heard> & { readonly rate: number })[] = []
    for (let run = 0; run < runs; run++) {
      const rate = nextDose(past)
      const faults = Math.max(1, Math.round(rate * 40))
      past.push({ rate, ...heard(objects, faults, 40 - faults) })
    }
    return past
  }

  it('begins dense, and thins out for one who hears well, step by step, down to the rarest', () => {
    const doses = flown(3.5, 40).map(({ rate }) => rate)
    expect(doses[0]).toBe(DOSES[0])
    expect(doses.at(-1)).toBe(DOSES.at(-1))
    for (const [at, dose] of doses.entries()) {
      const before = DOSES.findIndex((one) => one === doses[at - 1])
      if (at > 0) expect(DOSES.indexOf(dose as (typeof DOSES)[number]) - before).toBeLessThanOrEqual(1)
    }
  })

  it('stays dense for one who hears nothing', () => {
    expect(flown(0, 30).every(({ rate }) => rate === DOSES[0])).toBe(true)
  })

  it('is told with what was caught at each, and the interval', () => {
    const runs = [
      { rate: 0.4, faults: 10, caught: 9, sound: 20, falseObjections: 0 },
      { rate: 0.4, faults: 10, caught: 9, sound: 20, falseObjections: 1 },
      { rate: 0.08, faults: 4, caught: 1, sound: 40, falseObjections: 0 },
    ]
    expect(caughtByDose(runs).map(({ dose, caught: { n, value } }) => [dose, n, value])).toEqual([
      [0.4, 20, 0.9],
      [0.08, 4, 0.25],
    ])
  })
})
