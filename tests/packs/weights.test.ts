/** Weight and balance written once, and worked examples that are recomputed. */

import { describe, expect, it } from 'vitest'
import { compute } from '../../src/kernel/figures/compute.ts'
import { showProblem } from '../../src/kernel/problemLine.ts'
import { revisionIn } from '../../src/packs/advice/inputs.ts'
import { namesIn } from '../../src/packs/hints/names.ts'
import { authored, problemsIn, sheet } from './authored.ts'

const BASE = `
stations:
  seats: {label: seats, arm: 80, max: 400}
  bags: {label: bags, arm: 140, max: 120}
tanks:
  - wings: {label: wing tanks, capacity: 300, arm: 95}
envelopes:
  takeoff:
    label: takeoff
    limits: [{weight: 1500, forward: 80, aft: 92}, {weight: 2600, forward: 82, aft: 92}]
`
const WEIGHTS = `${BASE}
weights:
  empty: {weight: 1520, arm: 82}
  taxiFuel: 10
  landing: true
  max: {zeroFuel: 2300, ramp: 2560, takeoff: 2550, landing: 2300}
`

describe('weights', () => {
  const pack = authored({ figures: `${WEIGHTS}figures: {}\n` })
  const { figures, problems } = compute(
    pack.figures,
    sheet({ fuel: 210, tripFuel: 120 }, { loads: { seats: 340, bags: 60 } }),
  )
  const found = (name: string) => figures[name]?.value

  it('makes the usual figures, as by hand', () => {
    const [zfw, zfm] = [1520 + 340 + 60, 1520 * 82 + 340 * 80 + 60 * 140]
    const [tow, tom] = [zfw + 200, zfm + 200 * 95]
    const [law, lam] = [zfw + 80, zfm + 80 * 95]
    expect([found('zeroFuelWeight'), found('rampWeight'), found('takeoffWeight'), found('landingWeight')]).toEqual([
      zfw,
      zfw + 210,
      tow,
      law,
    ])
    expect([found('zeroFuelMoment'), found('takeoffMoment'), found('landingMoment')]).toEqual([zfm, tom, lam])
    for (const [name, arm] of [
      ['zeroFuelCg', zfm / zfw],
      ['takeoffCg', tom / tow],
      ['landingCg', lam / law],
    ] as const) {
      expect(figures[name]?.exact).toBeCloseTo(arm, 9)
    }
    const forward = 80 + ((tow - 1500) / 1100) * 2
    expect(figures.takeoffMargin?.exact).toBeCloseTo(Math.min(tom / tow - forward, 92 - tom / tow), 9)
    expect(found('zeroFuelMargin')).toBeUndefined()
    expect(problems).toEqual([])
  })

  it('tells broken limits of what it made', () => {
    const heavy = compute(pack.figures, sheet({ fuel: 300, tripFuel: 10 }, { loads: { seats: 400, bags: 120 } }))
    expect(heavy.problems.map(({ message }) => message)).toContainEqual(expect.stringContaining('landing weight'))
  })

  it('leaves out what was not asked for, and gives way to a figure of the same name', () => {
    const plain = authored({
      figures: `${BASE}
weights: {empty: {weight: 1520, moment: 124640}}
figures:
  fuel: {label: usable fuel, kind: weight, entered: {}}
`,
    })
    const { declarations } = plain.figures
    expect(declarations.fuel?.label).toBe('usable fuel')
    expect(Object.keys(declarations).filter((name) => /ramp|landing|trip/.test(name))).toEqual([])
    expect(declarations.emptyMoment?.constant).toBe(124640)
  })

  it('follows an envelope in percent of the chord', () => {
    const percent = authored({
      figures: `${BASE.replace('label: takeoff', 'label: takeoff\n    unit: percentMac')
        .replace(/forward: 8\d/g, 'forward: 10')
        .replace(/aft: 92/g, 'aft: 30')}
mac: {leadingEdge: 70, length: 60}
weights: {empty: {weight: 1520, arm: 82}}
figures: {}
`,
    })
    const set = compute(percent.figures, sheet({ fuel: 200 }, { loads: { seats: 340, bags: 60 } }))
    const cg = Number(set.figures.takeoffCg?.exact)
    expect(set.figures.takeoffMac?.exact).toBeCloseTo(((cg - 70) / 60) * 100, 9)
    expect(set.figures.takeoffMargin?.value).toBeDefined()
  })

  it('needs stations, tanks and envelopes', () => {
    expect(problemsIn({ figures: 'weights: {empty: {weight: 1520, arm: 82}}\nfigures: {}\n' })).toEqual([
      'figures.yaml:1:1: weights makes its figures from stations, tanks and envelopes; write stations and tanks and envelopes in this file',
    ])
  })

  it('is offered by its names in the editor', () => {
    const files = { 'pack.yaml': 'units: {weight: lb, arm: in}\n', 'figures.yaml': `${WEIGHTS}figures: {}\n` }
    expect(namesIn(files).figures).toContainEqual({ name: 'landingCg', about: 'landing CG, decimal' })
  })
})

describe('a worked example', () => {
  const pack = authored({ figures: `${WEIGHTS}figures: {}\n` })
  const example = (expected: string) =>
    revisionIn(
      `status: final\nloads: {seats: 340, bags: 60}\nvalues: {fuel: 210, tripFuel: 120}\nexpect: ${expected}\n`,
      'example.yaml',
      pack,
      true,
    ).problems.map(showProblem)

  it('comes out as it says', () => {
    expect(example('{takeoffWeight: 2120, takeoffCg: 84.5, landingWeight: "2000 lb"}')).toEqual([])
  })

  it('is told where it does not: the first of what rests on one another', () => {
    expect(example('{takeoffWeight: 2140, takeoffCg: 83, zeroFuelWeight: 1930}')).toEqual([
      'example.yaml:4:62: zero fuel weight comes out as 1,920 lb, not as 1,930 lb; one of the two is wrong',
    ])
  })

  it('names what it cannot hold', () => {
    expect(example('{takeofWeight: 2120}')[0]).toContain('did you mean "takeoffWeight"?')
    expect(example('{fuel: 210}')[0]).toContain('fuel is entered, and nothing is worked out; take it out')
  })
})
