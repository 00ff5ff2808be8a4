import fc from 'fast-check'
import interpolate from 'ndarray-linear-interpolate'
import { describe, expect, test } from 'vitest'
import { look } from '../../../src/kernel/figures/lookup.ts'
import type { Axis, Table } from '../../../src/kernel/figures/pack.ts'
import { derived, figuresOf, modelOf } from './modelOf.ts'

/** A table over numbers, one axis for each list of entries. */
function tableOf(axes: readonly (readonly number[])[], cells: readonly number[]): Table {
  const named: Axis[] = axes.map((at, index) => ({ name: `a${index}`, label: `a${index}`, unit: 'none', at }))
  return { name: 't', label: 't', unit: 'none', axes: named, cells }
}

/** The same table as the library takes it: an array by whole indexes. */
function gridOf(shape: readonly number[], cells: readonly number[]) {
  const strides = shape.map((_, axis) => shape.slice(axis + 1).reduce((product, size) => product * size, 1))
  return {
    shape,
    // With four axes the library reads the array itself.
    ...{ data: cells, stride: strides, offset: 0 },
    get: (...indexes: number[]) =>
      cells[indexes.reduce((sum, index, axis) => sum + index * (strides[axis] ?? 0), 0)] ?? 0,
  }
}

/** Where a value stands among the entries, in whole indexes and shares of one. */
function indexIn(at: readonly number[], value: number): number {
  const low = Math.min(at.filter((entry) => entry <= value).length, at.length - 1) - 1
  const [from = 0, to = 0] = [at[low], at[low + 1]]
  return low + (value - from) / (to - from)
}

const entries = fc
  .uniqueArray(fc.integer({ min: -5000, max: 5000 }), { minLength: 2, maxLength: 6 })
  .map((at) => at.toSorted((a, b) => a - b))

describe('looking up a table', () => {
  test('agrees with a general numerical library at 10,000 random points of one to four axes', () => {
    let points = 0
    const cases = fc.array(entries, { minLength: 1, maxLength: 4 }).chain((axes) => {
      const count = axes.reduce((product, at) => product * at.length, 1)
      const cells = fc.array(fc.double({ min: -900, max: 900, noNaN: true }), { minLength: count, maxLength: count })
      const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), {
        minLength: axes.length,
        maxLength: axes.length,
      })
      return fc.tuple(fc.constant(axes), cells, fc.array(shares, { minLength: 10, maxLength: 10 }))
    })
    fc.assert(
      fc.property(cases, ([axes, cells, places]) => {
        const table = tableOf(axes, cells)
        const grid = gridOf(
          axes.map((at) => at.length),
          cells,
        )
        for (const shares of places) {
          const values = axes.map((at, axis) => {
            const [first = 0, last = 0] = [at[0], at.at(-1)]
            return first + (shares[axis] ?? 0) * (last - first)
          })
          const theirs = interpolate(grid, ...axes.map((at, axis) => indexIn(at, values[axis] ?? 0)))
          const ours = look(table, values)
          expect('value' in ours && Math.abs(ours.value - theirs)).toBeLessThan(1e-6)
          points++
        }
      }),
      { numRuns: 1000 },
    )
    expect(points).toBe(10000)
  })

  test('gives a cell itself at its entries', () => {
    const table = tableOf(
      [
        [10, 20],
        [1, 2, 3],
      ],
      [5, 6, 7, 8, 9, 10],
    )
    expect(look(table, [20, 2])).toEqual({ value: 9, cells: [{ table: 't', at: { a0: 20, a1: 2 }, value: 9 }] })
  })

  test('of four axes gives takeoff speeds by weight, flap, altitude and temperature', () => {
    // Linear in each axis, so that the value between the entries is known: 100 + w/1000 - 3f + a/1000 + t/10.
    const speed = (weight: number, flap: number, altitude: number, celsius: number) =>
      100 + weight / 1000 - 3 * flap + altitude / 1000 + celsius / 10
    const axes = [
      { name: 'weight', unit: 'kg', at: [20000, 30000] },
      { name: 'flap', choices: ['8', '14'] },
      { name: 'altitude', unit: 'ft', at: [0, 4000, 8000] },
      { name: 'temperature', unit: 'C', at: [-20, 20, 50] },
    ]
    const cells = [20000, 30000].map((weight) =>
      [0, 1].map((flap) => [0, 4000, 8000].map((alt) => [-20, 20, 50].map((t) => speed(weight, flap, alt, t)))),
    )
    const model = modelOf({
      units: { weight: 'kg', arm: 'm' },
      figures: {
        flap: choice('14'),
        rotate: derived('kt', {
          by: 'lookUp',
          table: 'rotate',
          at: { weight: 26500, flap: 'flap', altitude: 1000, temperature: 32 },
        }),
      },
      tables: { rotate: { label: 'rotate speed', unit: 'kt', axes, trend: { weight: 'rising' }, cells } },
    })
    const { rotate } = figuresOf(model).figures
    expect(rotate?.exact).toBeCloseTo(speed(26500, 1, 1000, 32), 9)
    expect(rotate?.why[0]?.cells?.length).toBe(8)
  })

  test('never goes outside: the error names the table, the axis and its ends', () => {
    const model = modelOf({
      figures: {
        speed: derived('kt', { by: 'lookUp', table: 'speeds', at: { weight: 33000, flap: 'flap' } }),
        flap: choice('8'),
      },
      tables: {
        speeds: {
          label: 'rotate speed',
          unit: 'kt',
          axes: [WEIGHTS, FLAPS],
          cells: [
            [100, 96],
            [120, 115],
          ],
        },
      },
    })
    const { figures, problems } = figuresOf(model)
    expect(figures.speed?.value).toBeUndefined()
    expect(problems).toEqual([
      {
        code: 'table.outside',
        severity: 'error',
        message: 'result: table rotate speed: takeoff weight 33,000 lb is outside its axis weight: 20,000 to 32,000 lb',
      },
    ])
  })

  test('a position that the table does not have is an error with those that it has', () => {
    const model = modelOf({
      figures: {
        speed: derived('kt', { by: 'lookUp', table: 'speeds', at: { weight: 30000, flap: 'flap' } }),
        flap: choice('22'),
      },
      tables: {
        speeds: {
          label: 'rotate speed',
          unit: 'kt',
          axes: [WEIGHTS, FLAPS],
          cells: [
            [100, 96],
            [120, 115],
          ],
        },
      },
    })
    expect(figuresOf(model).problems[0]?.message).toBe(
      'result: table rotate speed: flap "22" is not on its axis flap: 8, 14',
    )
  })

  test('stands at the end of an axis although a conversion of units put it a hair beyond', () => {
    const table = tableOf([[1000, 2000]], [80, 90])
    expect(look(table, [2000 * (1 + 1e-12)])).toMatchObject({ value: 90 })
    expect(look(table, [2000.01])).toMatchObject({ code: 'table.outside' })
  })
})

const WEIGHTS = { name: 'weight', label: 'takeoff weight', unit: 'lb', at: [20000, 32000] }
const FLAPS = { name: 'flap', choices: ['8', '14'] }

function choice(constant: string): object {
  return {
    label: 'flap',
    kind: 'choice',
    options: { '8': ['eight'], '14': ['fourteen'], '22': ['twenty two'] },
    constant,
  }
}
