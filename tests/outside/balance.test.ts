/**
 * Weight and balance against published worked examples. `looked up`: seen in a stored copy of the page named;
 * `2nd hand`: seen in a document that quotes the handbook's page; `from memory`: recalled, not confirmed.
 * PHAK is FAA-H-8083-25, WBH is FAA-H-8083-1.
 */

import { describe, expect, test } from 'vitest'
import { derived, figuresOf, modelOf, type Parts } from '../kernel/figures/modelOf.ts'

/** The value of `result` in a pack of these figures, unrounded. */
function result(parts: Parts, loads: Record<string, number> = {}): number | undefined {
  const set = figuresOf(modelOf(parts), { loads })
  expect(set.problems).toEqual([])
  return set.figures.result?.exact
}

/** A published figure agrees when rounding ours to its digits gives it. */
function rounded(value: number | undefined, decimals: number): number {
  return Number((value ?? Number.NaN).toFixed(decimals))
}

interface Loading {
  readonly name: string
  readonly empty: readonly [weight: number, arm: number]
  /** Load and arm of each station. */
  readonly stations: readonly (readonly [load: number, arm: number])[]
  readonly weight: number
  readonly moment?: number
  readonly cg: readonly [value: number, decimals: number]
}

const LOADINGS: readonly Loading[] = [
  {
    // PHAK computational method; totals looked up: flightlearnings.com 2011/03/17, flightliteracy.com; the arms from memory.
    name: 'a light single with people, bags and 75 gallons',
    empty: [2100, 78.3],
    stations: [
      [340, 85],
      [350, 121],
      [450, 75],
      [80, 150],
    ],
    weight: 3320,
    cg: [84.8, 1],
  },
  {
    // WBH 1B figs 6-1 to 6-4, 2nd hand.
    name: 'a light twin with a nose locker ahead of the datum',
    empty: [3404, 35.28],
    stations: [
      [840, 61],
      [320, 37],
      [310, 75],
      [100, -15],
      [90, 113],
    ],
    weight: 5064,
    moment: 215093,
    cg: [42.47, 2],
  },
]

describe('loading by stations', () => {
  test.each(LOADINGS)('$name', ({ empty, stations, weight, moment, cg }) => {
    const names = stations.map((_, index) => `s${index}`)
    const model = modelOf({
      stations: Object.fromEntries(stations.map(([, arm], index) => [`s${index}`, { label: `s${index}`, arm }])),
      figures: {
        empty: { label: 'empty', kind: 'weight', unit: 'lb', constant: empty[0] },
        emptyMoment: derived('lb in', { by: 'moment', weight: 'empty', arm: empty[1] }),
        weight: { label: 'weight', kind: 'weight', unit: 'lb', derived: { by: 'loadedWeight', empty: 'empty' } },
        moment: derived('lb in', { by: 'loadedMoment', empty: 'emptyMoment' }),
        cg: derived('in', { by: 'centreOfGravity', weight: 'weight', moment: 'moment' }),
      },
    })
    const set = figuresOf(model, {
      loads: Object.fromEntries(names.map((name, index) => [name, stations[index]?.[0] ?? 0])),
    })
    expect(set.figures.weight?.value).toBe(weight)
    if (moment !== undefined) expect(rounded(set.figures.moment?.exact, 0)).toBe(moment)
    expect(rounded(set.figures.cg?.exact, cg[1])).toBe(cg[0])
  })

  test('sub-moments of a three-jet load: 3,060 lb at 582.0 and 16,150 lb at 1,028.0 in thousands', () => {
    // FAA ATP test supplement fig. 80, looked up: scribd excerpt "Atp5" (1,781 and 16,602).
    const moment = (weight: number, arm: number) =>
      result({ figures: { result: derived('lb in/1000', { by: 'moment', weight, arm }) } })
    expect(rounded(moment(3060, 582), 0)).toBe(1781)
    expect(rounded(moment(16150, 1028), 0)).toBe(16602)
  })

  test('that load closed: 177,710 lb, 161,636 thousand lb-in, CG 909.5 in, 27.1 percent MAC', () => {
    // Same test, fig. 80: sub-moments of cabins and holds looked up; basic aircraft, tanks, totals and chord from memory.
    const weight = (constant: number) => ({ label: 'w', kind: 'weight', unit: 'lb', constant })
    const moment = (constant: number) => ({ label: 'm', kind: 'decimal', decimals: 0, unit: 'lb in/1000', constant })
    const parts: readonly (readonly [weight: number, moment: number])[] = [
      [105500, 92827],
      [3060, 1781],
      [16150, 16602],
      [1500, 1020],
      [2500, 2915],
      [10500, 10451],
      [10500, 10451],
      [28000, 25589],
    ]
    const names = (letter: string) => parts.map((_, index) => `${letter}${index}`)
    const { figures } = figuresOf(
      modelOf({
        mac: { leadingEdge: 860.5, length: 180.9 },
        figures: {
          ...Object.fromEntries(
            parts.flatMap(([w, m], i) => [
              [`w${i}`, weight(w)],
              [`m${i}`, moment(m)],
            ]),
          ),
          weight: derived('lb', { by: 'sum', of: names('w') }),
          moment: derived('lb in/1000', { by: 'sum', of: names('m') }),
          cg: derived('in', { by: 'centreOfGravity', weight: 'weight', moment: 'moment' }),
          mac: derived('percentMac', { by: 'percentMac', cg: 'cg' }),
        },
      }),
    )
    expect(figures.weight?.exact).toBe(177710)
    expect(rounded(figures.moment?.exact, 0)).toBe(161636)
    expect(rounded(figures.cg?.exact, 1)).toBe(909.5)
    expect(rounded(figures.mac?.exact, 1)).toBe(27.1)
  })
})

interface Case {
  readonly name: string
  readonly unit: string
  readonly by: object
  readonly mac?: { readonly leadingEdge: number; readonly length: number }
  readonly published: readonly [value: number, decimals: number]
}

const CASES: readonly Case[] = [
  {
    // PHAK weight shifting, looked up: flightlearnings.com 2011/03/21.
    name: 'a hundred pounds moved from 30 to 150 inches bring the CG of 8,000 lb from 77.0 to 78.5',
    unit: 'in',
    by: { by: 'shiftedCg', weight: 8000, cg: 77, moved: 100, from: 30, to: 150 },
    published: [78.5, 1],
  },
  {
    // PHAK, looked up: jetcareers.com "weight-shifting".
    name: '65 lb must move from 150 to 30 inches to bring 7,800 lb from 81.5 to the aft limit of 80.5',
    unit: 'lb',
    by: { by: 'weightToShift', weight: 7800, cg: 81.5, target: 80.5, from: 150, to: 30 },
    published: [65, 0],
  },
  {
    // PHAK, from memory.
    name: '140 lb added at 150 inches bring 6,860 lb from 80.0 to 81.4',
    unit: 'in',
    by: { by: 'changedCg', weight: 6860, cg: 80, change: 140, arm: 150 },
    published: [81.4, 1],
  },
  {
    // PHAK, from memory.
    name: '100 lb removed at 150 inches bring 6,100 lb from 78.0 to 76.8',
    unit: 'in',
    by: { by: 'changedCg', weight: 6100, cg: 78, change: -100, arm: 150 },
    published: [76.8, 1],
  },
  {
    // WBH 1B p. 10-6, 2nd hand: the CG moves forward 1.36 in; taken from a CG of zero.
    name: '50 lb moved from 246 to 118 inches move the CG of 4,709 lb forward 1.36',
    unit: 'in',
    by: { by: 'shiftedCg', weight: 4709, cg: 0, moved: 50, from: 246, to: 118 },
    published: [-1.36, 2],
  },
  {
    // WBH 1B p. 10-6, 2nd hand.
    name: '73.6 lb moved from 246 to 118 inches move the CG of 4,709 lb forward 2.0',
    unit: 'lb',
    by: { by: 'weightToShift', weight: 4709, cg: 2, target: 0, from: 246, to: 118 },
    published: [73.6, 1],
  },
  {
    // WBH 1B p. 10-7, 2nd hand.
    name: '7.7 lb of ballast at 228 inches bring 1,876 lb from +32.2 to +33.0',
    unit: 'lb',
    by: { by: 'ballast', weight: 1876, cg: 32.2, target: 33, arm: 228 },
    published: [7.7, 1],
  },
  {
    // WBH 1B fig. 3-5, 2nd hand.
    name: 'a weighing of 2,006 lb with 65,756 lb-in has its CG at 32.8',
    unit: 'in',
    by: { by: 'centreOfGravity', weight: 2006, moment: 65756 },
    published: [32.8, 1],
  },
  {
    // WBH computer chapter, looked up: flight-study.com/electronic-calculator. Moment about the main wheels: 340 lb x -78 in.
    name: '340 lb on the nose wheel 78 inches ahead of the mains: the CG of 2,006 lb is 13.2 ahead of them',
    unit: 'in',
    by: { by: 'centreOfGravity', weight: 2006, moment: 340 * -78 },
    published: [-13.2, 1],
  },
  {
    // WBH 1B fig. 3-19, 2nd hand.
    name: 'a CG at station 161 with a chord from 144 to 206 is at 27.4 percent MAC',
    unit: 'percentMac',
    by: { by: 'percentMac', cg: 161 },
    mac: { leadingEdge: 144, length: 62 },
    published: [27.4, 1],
  },
  {
    // UK/JAA mass and balance training note, looked up: pprune.org/1240419-post3.
    name: 'a CG at 663 with a chord from 625.6 to 760.1 is at 27.8 percent MAC',
    unit: 'percentMac',
    by: { by: 'percentMac', cg: 663 },
    mac: { leadingEdge: 625.6, length: 134.5 },
    published: [27.8, 1],
  },
  {
    // FAA ATP test supplement fig. 80, from memory.
    name: 'a CG at 909.5 with LEMAC 860.5 and MAC 180.9 is at 27.1 percent MAC',
    unit: 'percentMac',
    by: { by: 'percentMac', cg: 909.5 },
    mac: { leadingEdge: 860.5, length: 180.9 },
    published: [27.1, 1],
  },
  {
    // WBH large-aircraft chapter, stabiliser trim example, from memory.
    name: 'a CG at 635.7 with LEMAC 625.0 and MAC 134.0 is at 8.0 percent MAC',
    unit: 'percentMac',
    by: { by: 'percentMac', cg: 635.7 },
    mac: { leadingEdge: 625, length: 134 },
    published: [8, 1],
  },
]

describe('centre of gravity', () => {
  test.each(CASES)('$name', ({ unit, by, mac, published: [value, decimals] }) => {
    const found = result({ figures: { result: derived(unit, by) }, ...(mac && { mac }) })
    expect(rounded(found, decimals)).toBe(value)
  })

  test('2,500 kg of cargo at 360 bring 41,000 kg from 663 to 645.59 in, 14.86 percent MAC', () => {
    // Same note as above, looked up: pprune.org/1240419-post3. Kilograms with inches, as printed there.
    const set = figuresOf(
      modelOf({
        units: { weight: 'kg', arm: 'in' },
        mac: { leadingEdge: 625.6, length: 134.5 },
        figures: {
          cg: derived('in', { by: 'changedCg', weight: 41000, cg: 663, change: 2500, arm: 360 }),
          mac: derived('percentMac', { by: 'percentMac', cg: 'cg' }),
        },
      }),
    )
    expect(rounded(set.figures.cg?.exact, 2)).toBe(645.59)
    expect(rounded(set.figures.mac?.exact, 2)).toBe(14.86)
  })

  /** WBH large-aircraft chapter, from memory: 90,000 lb at 22.5 % MAC, MAC 141.5, LEMAC 549.13. */
  const jet = (change: object): Parts => ({
    mac: { leadingEdge: 549.13, length: 141.5 },
    figures: {
      before: derived('in', { by: 'armOfPercentMac', cg: 22.5 }),
      after: derived('in', { weight: 90000, cg: 'before', ...change }),
      result: derived('percentMac', { by: 'percentMac', cg: 'after' }),
    },
  })
  test.each([
    ['2,500 lb out of the forward hold at 352.1: 27.1 percent', { by: 'changedCg', change: -2500, arm: 352.1 }, 27.1],
    ['2,500 lb into the forward hold: 18.1 percent', { by: 'changedCg', change: 2500, arm: 352.1 }, 18.1],
    [
      '2,500 lb from the forward to the aft hold: 29.8 percent',
      { by: 'shiftedCg', moved: 2500, from: 352.1, to: 724.9 },
      29.8,
    ],
  ])('%s', (_, change, published) => {
    expect(rounded(result(jet(change)), 1)).toBe(published)
  })

  test.each([
    [
      'a shift that would move the CG the other way',
      { by: 'weightToShift', weight: 7800, cg: 81.5, target: 80.5, from: 30, to: 150 },
    ],
    [
      'a shift of more than the whole aeroplane',
      { by: 'weightToShift', weight: 900, cg: 80, target: 110, from: 30, to: 40 },
    ],
    [
      'a shift between two stations of one arm',
      { by: 'weightToShift', weight: 900, cg: 80, target: 81, from: 30, to: 30 },
    ],
    ['ballast on the wrong side', { by: 'ballast', weight: 1876, cg: 32.2, target: 33, arm: 20 }],
  ])('%s has no solution and is refused', (_, by) => {
    const set = figuresOf(modelOf({ figures: { result: derived('lb', by) } }))
    expect(set.figures.result?.value).toBeUndefined()
    expect(set.problems.map(({ code }) => code)).toEqual(['shift.none'])
  })
})

test('the most payload of a large aeroplane is set by the landing weight: 27,500 lb', () => {
  // WBH 1B ch. 9 figs 9-30 to 9-32, looked up: flightliteracy.com "Modifying the Cargo part 2" (27,500 and the inputs).
  const weight = (constant: number) => ({ label: 'w', kind: 'weight', unit: 'lb', constant })
  const difference = (of: string, ...less: string[]) => derived('lb', { by: 'difference', of, less })
  const { figures } = figuresOf(
    modelOf({
      figures: {
        operating: weight(100500),
        mostZeroFuel: weight(138000),
        mostLanding: weight(142000),
        mostTakeoff: weight(184200),
        tankFuel: weight(54000),
        tripFuel: weight(40000),
        reserve: difference('tankFuel', 'tripFuel'),
        byLanding: difference('mostLanding', 'reserve', 'operating'),
        byTakeoff: difference('mostTakeoff', 'tankFuel', 'operating'),
        byZeroFuel: difference('mostZeroFuel', 'operating'),
      },
    }),
  )
  // Arithmetic on the way, not published: 182,000 at takeoff, 128,000 without fuel.
  const zeroFuel = 100500 + (figures.byLanding?.exact ?? 0)
  expect([zeroFuel + 54000, zeroFuel]).toEqual([182000, 128000])
  const payloads = ['byLanding', 'byTakeoff', 'byZeroFuel'].map((name) => figures[name]?.exact ?? 0)
  expect(Math.min(...payloads)).toBe(27500)
  expect(payloads[0]).toBe(27500)
})
