import { beforeAll, describe, expect, test } from 'vitest'
import { compute, figureOf } from '../../../src/kernel/figures/compute.ts'
import type { FigureSet, Inputs } from '../../../src/kernel/figures/model.ts'
import type { Pack } from '../../../src/kernel/pack/checklist.ts'
import { packAt, revision } from './marram.ts'
import { derived, figuresOf, modelOf } from './modelOf.ts'

let pack: Pack
beforeAll(async () => {
  pack = await packAt('checklists/marram')
})

function set(change: (inputs: Inputs) => Partial<Inputs> = () => ({})): FigureSet {
  const inputs = revision(pack, 'final')
  return compute(pack.figures, { ...inputs, ...change(inputs) })
}
const codes = ({ problems }: FigureSet) => problems.map(({ code }) => code)

describe('the figures of a departure', () => {
  test('are all there where the inputs are whole', () => {
    const { figures, problems } = set()
    expect(problems).toEqual([])
    const isOfStations = (name: string) => pack.figures.declarations[name]?.given !== undefined
    const without = Object.values(figures).filter(({ name, value }) => value === undefined && !isOfStations(name))
    expect(without.map(({ name }) => name)).toEqual(['assumedTemperature', 'windReference', 'variation', 'windGust'])
  })

  test.each([1e12, -1e12, 1e6])('of an elevation of %d are no numbers, and say so', (elevation) => {
    const { figures, problems } = set(({ values }) => ({ values: { ...values, elevation } }))
    expect(problems.map(({ message }) => message).join('\n')).toMatch(/cannot be computed|is out of range|outside/)
    const told = Object.values(figures).map(({ value, exact, why }) => [value, exact, ...why.map(({ text }) => text)])
    expect(told.flat().filter((one) => /NaN|Infinity|e\+/.test(String(one)))).toEqual([])
  })

  test('the takeoff trim says why: the CG, the flap, the cells it lies between, the rounding', () => {
    const { takeoffTrim, takeoffCg } = set().figures
    expect(takeoffTrim?.why.map(({ text }) => text)).toEqual([
      `table takeoff trim at takeoff CG ${takeoffCg?.value} % MAC, flap 12, between 2 cells: ${takeoffTrim?.exact} units`,
      `rounded nearest to 0.1: ${takeoffTrim?.value} units`,
    ])
    expect(takeoffTrim?.why[0]).toMatchObject({
      uses: ['takeoffCg', 'takeoffFlap'],
      cells: [
        { table: 'takeoffTrim', at: { cg: 26, flap: '12' }, value: 3.5 },
        { table: 'takeoffTrim', at: { cg: 30, flap: '12' }, value: 2.3 },
      ],
    })
  })

  test('every value leads back to what was entered or fixed, through the figures it names', () => {
    const { figures } = set()
    const rootsOf = (name: string): string[] => {
      const used = figures[name]?.why.flatMap(({ uses }) => uses) ?? []
      return used.length === 0 ? [name] : used.flatMap(rootsOf)
    }
    for (const { name, value } of Object.values(figures)) {
      for (const root of rootsOf(name)) {
        const declaration = pack.figures.declarations[root]
        const isGround = declaration?.input || declaration?.constant !== undefined
        const isLoads = ['lastMinute', 'headCount'].some((by) => declaration?.derived?.by.startsWith(by))
        expect(value === undefined || isGround || isLoads, `${name} rests on ${root}`).toBe(true)
      }
    }
  })

  test('are preliminary where they rest on preliminary inputs, and never where they are fixed in the pack', () => {
    const { figures } = compute(pack.figures, revision(pack, 'preliminary'))
    expect(figures.takeoffTrim?.preliminary).toBe(true)
    expect(figures.basicMoment?.preliminary).toBe(false)
    expect(Object.values(set().figures).some(({ preliminary }) => preliminary)).toBe(false)
  })

  test('come in the form that judging takes', () => {
    expect(figureOf(set(), 'takeoffTrim')).toEqual({
      kind: 'trim',
      decimals: 1,
      axis: 'pitch',
      min: -4.5,
      max: 11.5,
      value: 3.1,
    })
    expect(figureOf(set(), 'windGust')).toBeUndefined()
    expect(figureOf(set(), 'nothing')).toBeUndefined()
  })

  test('CG further aft needs less nose-up trim', () => {
    // Common practice, no source.
    const forward = set(({ loads }) => ({ loads: { ...loads, frontHold: 760, aftHold: 730 }, stated: {} }))
    const aft = set()
    expect(Number(aft.figures.takeoffCg?.exact)).toBeGreaterThan(Number(forward.figures.takeoffCg?.exact))
    expect(Number(aft.figures.takeoffTrim?.value)).toBeLessThan(Number(forward.figures.takeoffTrim?.value))
  })
})

describe('what cannot be computed', () => {
  test('a missing input is named once, and what rests on it waits', () => {
    const { figures, problems } = set(({ values: { blockFuel: _, ...values } }) => ({ values }))
    expect(problems).toEqual([
      { code: 'input.missing', severity: 'error', message: 'fuel on board is not entered (kg)' },
    ])
    expect(figures.takeoffTrim?.value).toBeUndefined()
    expect(figures.takeoffTrim?.why[0]?.text).toBe('waits for takeoff CG')
    expect(figures.zeroFuelWeight?.value).toBe(24620)
  })

  test.each([
    [
      'a negative weight',
      { values: { blockFuel: -20 } },
      'input.scale',
      'fuel on board -20 kg is out of range: 0 to 9,990 kg',
    ],
    [
      'a value off its scale',
      { values: { altimeter: 2992 } },
      'input.scale',
      'altimeter 2,992 hPa is out of range: 940 to 1,060 hPa',
    ],
    [
      'text for a number',
      { values: { blockFuel: 'full' } },
      'input.number',
      'fuel on board "full" should be a number in kg',
    ],
    [
      'a flap that is none',
      { values: { takeoffFlap: '15' } },
      'input.option',
      'takeoff flap "15" should be one of its positions: 7, 12, 19',
    ],
    [
      'a code too short',
      { values: { transponder: '427' } },
      'input.shape',
      'transponder "427" should be 4 digits from 0 to 7 (in quotes)',
    ],
    [
      'a negative load',
      { loads: { aftHold: -300 } },
      'load.negative',
      'load aft hold -300 kg is negative; a load is zero or more',
    ],
    [
      'an overloaded station',
      { loads: { aftHold: 2000 } },
      'limit.station',
      'load aft hold 2,000 kg is over its limit of 1,900 kg',
    ],
  ])('%s is told with what would be right', (_, change, code, message) => {
    const { problems } = set(({ values, loads }) => ({
      values: { ...values, ...(change as Partial<Inputs>).values },
      loads: { ...loads, ...(change as Partial<Inputs>).loads },
      stated: {},
    }))
    expect(problems).toContainEqual({ code, severity: 'error', message })
  })

  test('an unknown station is an error with those that there are', () => {
    const { problems } = set(({ loads }) => ({ loads: { ...loads, tail: 10 } }))
    expect(problems[0]).toMatchObject({
      code: 'load.unknown',
      message: expect.stringContaining('there are frontCabin, middleCabin'),
    })
  })

  test('overweight and out of the envelope are told apart, with by how much', () => {
    const heavy = set(({ loads, values }) => ({
      loads: { ...loads, middleCabin: 2600, frontCabin: 2400 },
      values: { ...values, blockFuel: 6700 },
      stated: {},
    }))
    expect(codes(heavy)).toContain('limit.exceeded')
    const aft = set(({ loads }) => ({ loads: { ...loads, frontCabin: 0, frontHold: 0, aftHold: 1900 }, stated: {} }))
    const message = aft.problems.find(({ code }) => code === 'limit.envelope')?.message
    expect(message).toMatch(
      /^zero fuel CG [\d.]+ % MAC is [\d.]+ aft of the envelope zero fuel \(.+ at zero fuel weight [\d,]+ kg\)$/,
    )
  })

  test('more fuel than the tanks hold is an error with what they hold', () => {
    const { problems } = set(({ values }) => ({ values: { ...values, blockFuel: 6900 }, stated: {} }))
    expect(problems.map(({ message }) => message)).toContain(
      'block fuel moment: 6,900 kg of fuel, the tanks hold 6,780 kg',
    )
  })

  test('an assumed temperature may not be below the outside one', () => {
    const colder = set(({ values }) => ({ values: { ...values, assumedTemperature: 4 } }))
    expect(codes(colder)).toEqual(['limit.assumed'])
    // Nobody states a fan speed for it.
    const warmer = set(({ values }) => ({ values: { ...values, assumedTemperature: 50 }, stated: {} }))
    expect(warmer.problems).toEqual([])
    expect(Number(warmer.figures.takeoffThrust?.value)).toBeLessThan(Number(set().figures.takeoffThrust?.value))
  })
})

describe('load by index units', () => {
  test("gives the same CG as by moments, with the pack's formula", () => {
    const index = { reference: 20, divisor: 1000, constant: 50 }
    const model = modelOf({
      units: { weight: 'kg', arm: 'm' },
      index,
      stations: { front: { label: 'front', arm: 12 }, aft: { label: 'aft', arm: 27.5 } },
      figures: {
        empty: { label: 'empty', kind: 'weight', unit: 'kg', constant: 21000 },
        emptyIndex: derived('index', { by: 'index', weight: 'empty', cg: 20.4 }),
        emptyMoment: derived('kg m', { by: 'moment', weight: 'empty', arm: 20.4 }),
        weight: { label: 'weight', kind: 'weight', unit: 'kg', derived: { by: 'loadedWeight', empty: 'empty' } },
        loadedIndex: derived('index', { by: 'loadedIndex', empty: 'emptyIndex' }),
        changeIndex: derived('index', { by: 'lastMinuteIndex' }),
        changed: derived('index', { by: 'sum', of: ['loadedIndex', 'changeIndex'] }),
        moment: derived('kg m', { by: 'loadedMoment', empty: 'emptyMoment' }),
        byIndex: derived('m', { by: 'cgOfIndex', weight: 'weight', index: 'loadedIndex' }),
        byMoment: derived('m', { by: 'centreOfGravity', weight: 'weight', moment: 'moment' }),
      },
    })
    const { figures } = figuresOf(model, { loads: { front: 1800, aft: 2300 } })
    expect(figures.emptyIndex?.exact).toBeCloseTo(58.4, 9)
    expect(figures.byIndex?.exact).toBeCloseTo(figures.byMoment?.exact ?? 0, 9)
    const lastMinute = [{ station: 'aft', weight: -300 }]
    const late = figuresOf(model, { loads: { front: 1800, aft: 2300 }, lastMinute })
    const entered = figuresOf(model, { loads: { front: 1800, aft: 2000 } })
    expect(late.figures.changed?.exact).toBeCloseTo(entered.figures.loadedIndex?.exact ?? 0, 9)
  })
})

describe('figures that go up in an order', () => {
  // Inputs within what may be entered, found by a reviewer: the tables of this invented aircraft have V one above the rotate
  // speed there. V one may not exceed it: 14 CFR 25.107(e)(1)(i).
  const hotAndHigh = () =>
    set(({ values, loads }) => ({
      loads: Object.fromEntries(Object.keys(loads).map((station) => [station, 200])),
      values: { ...values, elevation: 6_000, altimeter: 980, temperature: 42, takeoffFlap: '7', blockFuel: 3_700 },
      stated: {},
    }))

  test('V one is never computed above the rotate speed', () => {
    const { figures } = hotAndHigh()
    const [before, v1, vr, v2] = ['v1Sum', 'v1', 'vr', 'v2'].map((name) => Number(figures[name]?.value))
    expect(before).toBeGreaterThan(vr ?? Number.NaN)
    expect(v1).toBe(vr)
    expect(vr).toBeLessThanOrEqual(v2 ?? Number.NaN)
    expect(figures.v1?.why[0]?.text).toMatch(/^the least of .*V one before the rotate speed.*rotate speed/)
  })

  const speed = (label: string) => ({ label, kind: 'speed', entered: {} })
  const ordered = (one: number, two: number, three: number | undefined) => {
    const figures = { one: speed('one'), two: speed('two'), three: speed('three') }
    const values = { one, two, ...(three !== undefined && { three }) }
    return figuresOf(modelOf({ figures, orders: [['one', 'two', 'three']] }), { values }).problems
  }

  test('break that order with both values, and in which order they must be', () => {
    expect(ordered(120, 118, 126)).toMatchObject([
      {
        code: 'limit.order',
        severity: 'error',
        message: 'one 120 kt is above two 118 kt; they must rise in this order: one, two, three',
      },
    ])
    expect(ordered(120, 126, 118).map(({ code }) => code)).toEqual(['limit.order'])
  })

  test('keep it where they are equal, and where one is missing the others are compared', () => {
    expect(ordered(118, 118, 126)).toEqual([])
    expect(ordered(118, 126, undefined).map(({ code }) => code)).toEqual(['input.missing'])
    expect(ordered(126, 118, undefined).map(({ code }) => code)).toEqual(['input.missing', 'limit.order'])
  })
})
