import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { FigureModel } from '../../../src/kernel/figures/pack.ts'
import { derived, figuresOf, modelOf } from './modelOf.ts'

const ARMS = [4.1, 7.9, 12.3, 12.3, 16.8, 21.5]

/** Six stations in kilograms and metres, in this order. */
function loadingModel(order: readonly number[] = [0, 1, 2, 3, 4, 5]): FigureModel {
  return modelOf({
    units: { weight: 'kg', arm: 'm' },
    stations: Object.fromEntries(order.map((index) => [`s${index}`, { label: `station ${index}`, arm: ARMS[index] }])),
    figures: {
      empty: { label: 'empty', kind: 'weight', unit: 'kg', constant: 9000 },
      emptyMoment: derived('kg m', { by: 'moment', weight: 'empty', arm: 12.6 }),
      weight: { label: 'weight', kind: 'weight', unit: 'kg', derived: { by: 'loadedWeight', empty: 'empty' } },
      moment: derived('kg m', { by: 'loadedMoment', empty: 'emptyMoment' }),
      cg: derived('m', { by: 'centreOfGravity', weight: 'weight', moment: 'moment' }),
      front: {
        label: 'front',
        kind: 'weight',
        unit: 'kg',
        derived: { by: 'loadedWeight', stations: ['s0', 's1', 's2'] },
      },
      rear: {
        label: 'rear',
        kind: 'weight',
        unit: 'kg',
        derived: { by: 'loadedWeight', stations: ['s3', 's4', 's5'] },
      },
      parts: { label: 'parts', kind: 'weight', unit: 'kg', derived: { by: 'sum', of: ['empty', 'front', 'rear'] } },
    },
  })
}

const model = loadingModel()
const loads = fc.array(fc.double({ min: 0, max: 2000, noNaN: true }), { minLength: 6, maxLength: 6 })
const named = (list: readonly number[]) => Object.fromEntries(list.map((load, index) => [`s${index}`, load]))
const exact = (list: readonly number[], name: string) =>
  figuresOf(model, { loads: named(list) }).figures[name]?.exact ?? Number.NaN

describe('a load', () => {
  test('moved aft never moves the centre of gravity forward', () => {
    const station = fc.integer({ min: 0, max: 5 })
    fc.assert(
      fc.property(loads, station, station, fc.double({ min: 0, max: 1, noNaN: true }), (list, one, other, share) => {
        const [front, aft] = one < other ? [one, other] : [other, one]
        const moved = share * (list[front] ?? 0)
        const after = list
          .with(front, (list[front] ?? 0) - moved)
          .map((load, index) => (index === aft ? load + moved : load))
        expect(exact(after, 'cg')).toBeGreaterThanOrEqual(exact(list, 'cg') - 1e-9)
      }),
    )
  })

  test('cross-foots: the parts are the whole', () => {
    fc.assert(
      fc.property(loads, (list) => {
        expect(exact(list, 'parts')).toBeCloseTo(exact(list, 'weight'), 6)
      }),
    )
  })

  test('is the same in whatever order the stations and the loads are written', () => {
    const order = fc.shuffledSubarray([0, 1, 2, 3, 4, 5], { minLength: 6, maxLength: 6 })
    fc.assert(
      fc.property(loads, order, (list, shuffled) => {
        const entries = shuffled.map((index) => [`s${index}`, list[index] ?? 0] as const)
        const other = figuresOf(loadingModel(shuffled), { loads: Object.fromEntries(entries) })
        expect(other.figures.cg?.exact).toBeCloseTo(exact(list, 'cg'), 9)
        expect(other.figures.weight?.value).toBe(figuresOf(model, { loads: named(list) }).figures.weight?.value)
      }),
      { numRuns: 50 },
    )
  })

  test('lies between its frontmost and aftmost arms', () => {
    fc.assert(
      fc.property(loads, (list) => {
        expect(exact(list, 'cg')).toBeGreaterThan(ARMS[0] ?? 0)
        expect(exact(list, 'cg')).toBeLessThan(ARMS[5] ?? 0)
      }),
    )
  })
})

describe('an envelope', () => {
  const at = (weight: number, cg: number) =>
    figuresOf(
      modelOf({
        envelopes: {
          takeoff: {
            label: 'takeoff',
            unit: 'in',
            limits: [
              { weight: 2000, forward: 30, aft: 40 },
              { weight: 3000, forward: 34, aft: 40 },
            ],
          },
        },
        figures: {
          weight: { label: 'weight', kind: 'weight', unit: 'lb', constant: weight },
          cg: { label: 'CG', kind: 'decimal', decimals: 1, unit: 'in', constant: cg },
          margin: derived('in', { by: 'envelopeMargin', envelope: 'takeoff', weight: 'weight', cg: 'cg' }),
        },
      }),
    )

  test.each([
    [2000, 31, 1],
    [2500, 32, 0],
    [2500, 33.5, 1.5],
    [3000, 39, 1],
    [2250, 31, 0],
  ])('at %i lb and %f in has a margin of %f in to the nearer limit', (weight, cg, margin) => {
    const { figures, problems } = at(weight, cg)
    expect(figures.margin?.value).toBe(margin)
    expect(problems).toEqual([])
  })

  test.each([
    [2500, 31.5, 'CG 31.5 in is 0.5 forward of the envelope takeoff (32 to 40 in at weight 2,500 lb)'],
    [2500, 40.25, 'CG 40.25 in is 0.25 aft of the envelope takeoff (32 to 40 in at weight 2,500 lb)'],
    [3001, 36, 'envelope takeoff: weight 3,001 lb is outside 2,000 to 3,000'],
    [1999, 36, 'envelope takeoff: weight 1,999 lb is outside 2,000 to 3,000'],
  ])('at %i lb and %f in is left: %s', (weight, cg, message) => {
    expect(at(weight, cg).problems).toMatchObject([{ code: 'limit.envelope', severity: 'error', message }])
  })
})

describe('fuel in tanks', () => {
  const tanks = [
    {
      left: {
        label: 'left wing',
        capacity: 1000,
        arm: [
          { quantity: 0, arm: 10 },
          { quantity: 1000, arm: 11 },
        ],
      },
      right: {
        label: 'right wing',
        capacity: 1000,
        arm: [
          { quantity: 0, arm: 10 },
          { quantity: 1000, arm: 11 },
        ],
      },
    },
    { centre: { label: 'centre', capacity: 500, arm: 9 } },
  ]
  const fuel = (constant: number) =>
    figuresOf(
      modelOf({
        units: { weight: 'kg', arm: 'm' },
        tanks,
        figures: {
          fuel: { label: 'fuel', kind: 'weight', unit: 'kg', constant },
          moment: derived('kg m', { by: 'fuelMoment', fuel: 'fuel' }),
          left: derived('kg', { by: 'tankQuantity', tank: 'left', fuel: 'fuel' }),
          centre: derived('kg', { by: 'tankQuantity', tank: 'centre', fuel: 'fuel' }),
          alone: derived('kg m', { by: 'tankMoment', tank: 'left', quantity: 'left' }),
        },
      }),
    ).figures

  test.each([
    // Total, in the left wing, in the centre, moment: the arm of a wing rises from 10 to 11 m with its quantity.
    [0, 0, 0, 0],
    [1000, 500, 0, 1000 * 10.5],
    [2000, 1000, 0, 2000 * 11],
    [2300, 1000, 300, 2000 * 11 + 300 * 9],
    [2500, 1000, 500, 2000 * 11 + 500 * 9],
  ])('of %i kg: %i in each wing, %i in the centre, %f kg m', (total, wing, centre, moment) => {
    const figures = fuel(total)
    expect([figures.left?.exact, figures.centre?.exact, figures.moment?.exact]).toEqual([wing, centre, moment])
    expect((figures.alone?.exact ?? 0) * 2 + centre * 9).toBeCloseTo(moment, 6)
  })

  test('more than they hold is refused with what they hold', () => {
    expect(fuel(2501).moment?.why[0]?.text).toBe('result: 2,501 kg of fuel, the tanks hold 2,500 kg')
  })
})
