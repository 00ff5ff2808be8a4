/**
 * The piston twin as an instructor for several engines looks at it: speeds and distances that go together, a rule that
 * compares them with the runway, and everything in the lists that is checked before a light twin leaves the ground.
 *
 * Sources: 14 CFR 23.51 as of 2003 (looked up); FAA-H-8083-3, chapter on transition to multiengine airplanes (looked up);
 * CAA Safety Sense Leaflet 7c (from memory, its shares of the wind looked up); 14 CFR 91.151 (from memory).
 */

import { describe, expect, test } from 'vitest'
import { compute } from '../../src/kernel/figures/compute.ts'
import type { Inputs } from '../../src/kernel/figures/model.ts'
import type { Value } from '../../src/kernel/kinds/kind.ts'
import type { WatchCall } from '../../src/kernel/pack/checklist.ts'
import { listsOf } from '../../src/kernel/pack/place.ts'
import { packAt, revision } from '../kernel/figures/marram.ts'

const pack = await packAt('checklists/pair')
const final = revision(pack, 'final')

/** The final sheet with other values, and nobody's word on its totals. */
const withValues = (values: Readonly<Record<string, Value>>, loads: Inputs['loads'] = {}): Inputs => {
  const { stated: _, ...own } = final
  return { ...own, values: { ...own.values, ...values }, loads: { ...own.loads, ...loads } }
}
const figures = (inputs: Inputs) => {
  const { figures: found, problems } = compute(pack.figures, inputs)
  return { value: (name: string) => Number(found[name]?.value), found, problems }
}
const EMPTY = { frontSeats: 0, rearSeats: 0, noseLocker: 0, rearLocker: 0 }
/** From a pilot alone to the maximum takeoff weight, 5,080 lb. */
const WEIGHTS = [
  { fuelGallons: 30, loads: { ...EMPTY, frontSeats: 170 } },
  { fuelGallons: 60, loads: { ...EMPTY, frontSeats: 340 } },
  { fuelGallons: 96, loads: { ...EMPTY, frontSeats: 345, rearSeats: 170, noseLocker: 40 } },
  { fuelGallons: 118, loads: { ...EMPTY, frontSeats: 370, rearSeats: 360, noseLocker: 70, rearLocker: 100 } },
]

describe.each(WEIGHTS)('speeds with %j', ({ fuelGallons, loads }) => {
  test.each(['0', '9'])('with flap %s: from the red line to the blue one', (flap) => {
    const { value } = figures(withValues({ fuelGallons, tripGallons: 10, flap }, loads))
    // Rotation at five knots above the minimum control speed (8083-3), and not below 1.05 of it (23.51(a)(1)).
    expect(value('liftOff')).toBeGreaterThanOrEqual(value('minimumControl') + 5)
    expect(value('liftOff')).toBeGreaterThanOrEqual(1.05 * value('minimumControl'))
    // At fifty feet a light twin has at least 1.1 of it (23.51(b)(1)(ii)); the blue line is what it climbs away with.
    expect(value('bestRate')).toBeGreaterThanOrEqual(1.1 * value('minimumControl'))
    expect(value('bestRate')).toBeGreaterThan(value('liftOff'))
  })
})

describe('takeoff and accelerate stop distance', () => {
  test('grow with weight, heat and height, and a stop needs more than a takeoff', () => {
    const heavier = WEIGHTS.map(({ fuelGallons, loads }) =>
      figures(withValues({ fuelGallons, tripGallons: 10 }, loads)),
    )
    const warmer = [-10, 15, 35, 55, 75, 95].map((temperature) => figures(withValues({ temperature })))
    const higher = [30.9, 30.2, 29.4, 28.7].map((altimeter) => figures(withValues({ altimeter })))
    for (const series of [heavier, warmer, higher]) {
      for (const name of ['takeoffDistance', 'accelerateStop']) {
        const values = series.map(({ value }) => value(name))
        expect(values.slice(1).every((one, index) => one > (values[index] ?? Number.NaN))).toBe(true)
      }
      const climbs = series.map(({ value }) => value('singleEngineClimb'))
      expect(climbs.slice(1).every((one, index) => one < (climbs[index] ?? Number.NaN))).toBe(true)
      // The length to the lift off speed and back to a stop, beside the way over fifty feet (8083-3).
      for (const { value } of series) expect(value('accelerateStop')).toBeGreaterThan(value('takeoffDistance'))
    }
  })

  test.each([
    ['thirty knots ahead', 112, 30, 20],
    ['twenty ahead', 112, 20, 20],
    ['nine ahead', 112, 9, 5],
    ['calm', 112, 0, 0],
    ['three behind', 292, 3, -5],
    ['ten behind, the limit', 292, 10, -10],
  ])('are given for %s', (_, windDirection, windSpeed, line) => {
    const { value, problems } = figures(withValues({ windDirection, windSpeed }))
    expect(problems).toEqual([])
    expect(value('cardWind')).toBe(line)
    expect(value('takeoffDistance')).toBeGreaterThan(0)
  })

  test('are not given for more from behind, and the limit says so', () => {
    const { found, problems } = figures(withValues({ windDirection: 292, windSpeed: 14 }))
    expect(found.takeoffDistance?.value).toBeUndefined()
    expect(problems.map(({ message }) => message)).toContainEqual(
      expect.stringMatching(/^headwind below its limit by 4 kt/),
    )
  })

  test('count half of a headwind and one and a half of a tailwind', () => {
    const { cells = [], axes = [] } = pack.figures.basis?.tables.windAndFlap ?? {}
    // [distance][headwind][flap], the last axis running fastest; of a thousand feet, flap 0.
    expect(axes.map(({ name }) => name)).toEqual(['distance', 'wind', 'flap'])
    const [limit = 0, five = 0, calm = 0, , ten = 0, , twenty = 0] = cells.slice(14, 28).filter((_, at) => at % 2 === 0)
    expect(calm).toBe(1000)
    // A tailwind of a tenth of the lift off speed takes a fifth more (leaflet 7c): here 7.5 kt, one and a half of five.
    expect(five).toBe(1200)
    expect(limit - calm).toBeGreaterThan(2 * (five - calm))
    // About one percent for a knot of headwind (common practice, no source), half of them counted.
    expect((calm - ten) / calm).toBeLessThanOrEqual(0.08)
    expect((calm - twenty) / calm).toBeLessThanOrEqual(0.15)
  })

  test('are never read off a better line of the card than the day is', () => {
    for (const [altimeter, temperature] of [
      [29.93, 41],
      [29.6, 60],
      [29.05, 99],
      [30.8, 2],
    ] as const) {
      const { value } = figures(withValues({ altimeter, temperature }))
      expect(value('cardAltitude')).toBeGreaterThanOrEqual(value('pressureAltitude'))
      expect(value('cardTemperature')).toBeGreaterThanOrEqual(temperature)
    }
  })
})

describe('the runway', () => {
  const HEAVY = { frontSeats: 370, rearSeats: 360, noseLocker: 70, rearLocker: 100 }

  test('that is too short for the stop is a warning with both lengths', () => {
    const inputs = withValues({ runway: '17', fuelGallons: 116, temperature: 85, windSpeed: 0 }, HEAVY)
    const { problems, found } = figures(inputs)
    expect(problems.map(({ code, message }) => [code, message])).toEqual([
      [
        'limit.order',
        'accelerate stop distance 3,650 ft is above runway available 3,300 ft; they must rise in this order: accelerate stop distance, runway available',
      ],
    ])
    expect(found.takeoffDistance?.value).toBeDefined()
  })

  test('that is long enough is none', () => {
    const inputs = withValues({ runway: '11', fuelGallons: 116, temperature: 85, windSpeed: 0 }, HEAVY)
    expect(figures(inputs).problems).toEqual([])
  })
})

test('less than half an hour of fuel at the landing is a broken limit (14 CFR 91.151)', () => {
  const { problems } = figures(withValues({ fuelGallons: 40, tripGallons: 32 }))
  expect(problems.map(({ message }) => message)).toEqual([
    expect.stringMatching(/^landing fuel below its limit by 6 lb/),
  ])
})

test('the cards print what the figures hold', () => {
  const texts = pack.papers.flatMap(({ lines }) => lines.flatMap((line) => ('text' in line ? [line] : [])))
  const printed = (label: string) => texts.find((line) => line.label === label)?.text
  const { value } = figures(final)
  expect(printed('Minimum control speed (red line)')).toBe(`${value('minimumControl')} kt`)
  expect(printed('elevation')).toBe(`${value('elevation')} ft`)
  const limit = (name: string) => `${pack.figures.declarations[name]?.limits?.max?.toLocaleString('en-US')} lb`
  expect(printed('Maximum takeoff weight')).toBe(limit('takeoffWeight'))
  expect(printed('Maximum landing weight')).toBe(limit('landingWeight'))
})

describe('what is checked', () => {
  const challenges = (id: string) =>
    listsOf(pack)
      .filter((list) => list.id === id)
      .flatMap(({ entries }) =>
        entries.map((entry) => (entry.type === 'item' ? entry.challenge : `line: ${entry.label}`)),
      )

  test.each([
    ['figures', ['takeoff distance', 'accelerate stop distance', 'runway available']],
    ['figures', ['minimum control speed', 'single engine best rate', 'single engine climb']],
    ['cabin', ['seats and harnesses', 'doors', 'control lock', 'fuel selectors', 'gear lever', 'alternate air']],
    ['beforeStart', ['beacon', 'fuel pumps', 'brakes', 'propellers']],
    ['afterStart', ['oil pressure', 'alternators', 'pumps and pressure', 'fuel selectors']],
    ['runUp', ['magnetos', 'mixtures', 'propeller levers', 'alternate air', 'fuel selectors', 'altimeter']],
    ['lineUp', ['flight controls', 'flap', 'elevator trim', 'rudder trim', 'lift off speed']],
    ['lineUp', ['engine failure before lift off', 'engine failure gear down', 'engine failure gear up']],
    ['lineUp', ['line: line up clearance', 'fuel pumps', 'lights', 'transponder', 'runway heading']],
  ])('in the list %s: %j', (id, wanted) => {
    expect(challenges(id)).toEqual(expect.arrayContaining(wanted))
  })

  const watches = pack.phases.flatMap(({ activities }) => activities.filter((one) => one.type === 'watch'))

  test.each(['leftPower', 'rightPower'])('in the check of an engine, %s', (id) => {
    const calls = new Map(
      watches.find((one) => one.id === id)?.calls.map((call): [string, WatchCall] => [call.id, call]),
    )
    // A propeller that is feathered and cycled, air from the other side, both magnetos and how far they are apart.
    expect([...calls.keys()]).toEqual(
      expect.arrayContaining([
        'feather',
        'propeller',
        'air',
        'leftMagneto',
        'rightMagneto',
        'difference',
        'alternator',
      ]),
    )
    for (const drop of ['leftMagneto', 'rightMagneto']) {
      // No drop at all is a magneto that is not grounded: it stays live (common practice, no source).
      expect(calls.get(drop)?.value?.min).toBeGreaterThan(0)
      expect(calls.get(drop)?.value?.max).toBeLessThan(Number.POSITIVE_INFINITY)
    }
    const [difference, most] = [calls.get('difference')?.value?.max, calls.get('leftMagneto')?.value?.max]
    expect(difference).toBeLessThan(Number(most))
    expect(calls.get('difference')?.value?.between).toEqual(['leftMagneto', 'rightMagneto'])
  })

  test('engines stop by their mixture', () => {
    const starts = watches.filter(({ id }) => id.endsWith('Start'))
    const words = starts.flatMap((one) => [one.stopWords, ...one.abnormal.map(({ stopWords }) => stopWords)])
    expect([...new Set(words)]).toEqual(['mixture cutoff'])
  })

  test('with its cautions: magnetos, propellers, brakes', () => {
    const cautions = pack.phases
      .flatMap(({ activities }) => activities)
      .flatMap((one) => ('caution' in one ? [one.caution] : []))
      .join('\n')
    for (const words of [/magnetos may be live/i, /propeller arcs/i, /brakes held/i]) expect(cautions).toMatch(words)
  })
})
