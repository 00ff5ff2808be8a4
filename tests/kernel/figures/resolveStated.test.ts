import { describe, expect, test } from 'vitest'
import type { Inputs } from '../../../src/kernel/figures/model.ts'
import { packAt, revision } from './marram.ts'
import { figuresOf, modelOf } from './modelOf.ts'

const model = modelOf({
  units: { weight: 'kg', arm: 'm' },
  stations: { hold: { label: 'hold', arm: 9 } },
  figures: {
    empty: { label: 'empty', kind: 'weight', unit: 'kg', constant: 20000 },
    zeroFuelWeight: {
      label: 'zero fuel weight',
      kind: 'weight',
      unit: 'kg',
      derived: { by: 'loadedWeight', empty: 'empty' },
      stated: { sources: ['loadSheet', 'flightComputer'], tolerance: 20 },
    },
    takeoffWeight: {
      label: 'takeoff weight',
      kind: 'weight',
      unit: 'kg',
      derived: { by: 'sum', of: ['zeroFuelWeight', 5000] },
    },
  },
})

function set(stated: Inputs['stated'], settled: Inputs['settled'] = {}) {
  return figuresOf(model, { loads: { hold: 1500 }, ...(stated && { stated }), settled })
}

describe('sources of a figure', () => {
  test('that agree within the tolerance stand side by side, and the computed value counts', () => {
    const { figures, problems } = set({
      loadSheet: { zeroFuelWeight: 21510 },
      flightComputer: { zeroFuelWeight: 21480 },
    })
    expect(problems).toEqual([])
    expect(figures.zeroFuelWeight?.value).toBe(21500)
    expect(figures.zeroFuelWeight?.sources).toEqual([
      { source: 'computed', value: 21500, difference: 0, within: true },
      { source: 'loadSheet', value: 21510, difference: 10, within: true },
      { source: 'flightComputer', value: 21480, difference: -20, within: true },
    ])
  })

  test('that differ by more leave the figure without a value until settled, and what rests on it waits', () => {
    const { figures, problems } = set({ loadSheet: { zeroFuelWeight: 21530 } })
    expect(problems).toEqual([
      {
        code: 'source.differs',
        severity: 'error',
        message:
          'zero fuel weight: sources differ by more than 20 kg (computed 21,500 kg, load sheet 21,530 kg); choose one and say why',
      },
    ])
    expect(figures.zeroFuelWeight?.value).toBeUndefined()
    expect(figures.takeoffWeight?.why[0]?.text).toBe('waits for zero fuel weight')
  })

  test('are settled by a choice with a reason, which its account tells', () => {
    const stated = { loadSheet: { zeroFuelWeight: 21530 } }
    const sheet = set(stated, { zeroFuelWeight: { use: 'loadSheet', reason: 'catering came late' } })
    expect(sheet.problems).toEqual([])
    expect(sheet.figures.takeoffWeight?.value).toBe(26530)
    expect(sheet.figures.zeroFuelWeight?.why.at(-1)?.text).toBe('settled on load sheet 21,530 kg: catering came late')
    const own = set(stated, { zeroFuelWeight: { use: 'computed', reason: 'the sheet adds wrongly' } })
    expect(own.figures.takeoffWeight?.value).toBe(26500)
  })

  test.each([
    ['no reason', { use: 'computed', reason: ' ' }],
    ['a source that stated nothing', { use: 'flightComputer', reason: 'it says so' }],
    ['a choice made on other values', { use: 'computed', reason: 'late', over: { computed: 21500, loadSheet: 21600 } }],
  ])('are not settled by %s', (_, settlement) => {
    const { figures } = set({ loadSheet: { zeroFuelWeight: 21530 } }, { zeroFuelWeight: settlement })
    expect(figures.zeroFuelWeight?.value).toBeUndefined()
  })

  test('say which one was chosen where its reason is missing', () => {
    const { problems } = set(
      { loadSheet: { zeroFuelWeight: 21530 } },
      { zeroFuelWeight: { use: 'loadSheet', reason: '' } },
    )
    expect(problems[0]?.message).toBe(
      'zero fuel weight: the load sheet is chosen without a reason, so it does not count; say why',
    )
  })
})

describe('a figure that was typed in', () => {
  const typed = modelOf({
    figures: {
      fuel: {
        label: 'fuel on board',
        kind: 'weight',
        unit: 'lb',
        entered: {},
        stated: { sources: ['loadSheet'], tolerance: 50 },
      },
      runway: { label: 'runway', kind: 'runway', entered: {}, stated: { sources: ['takeoffData', 'loadSheet'] } },
      flap: {
        label: 'flap',
        kind: 'choice',
        options: { '5': ['five'], '15': ['fifteen'] },
        entered: {},
        stated: { sources: ['takeoffData'] },
      },
      double: { label: 'double', kind: 'weight', unit: 'lb', derived: { by: 'sum', of: ['fuel', 'fuel'] } },
    },
  })
  const values = { fuel: 8400, runway: '27L', flap: '15' }

  test.each([
    ['fuel', 8440, true, 'fuel within its tolerance'],
    ['fuel', 8451, false, 'fuel beyond it'],
    ['fuel', 8040, false, 'two digits swapped'],
    ['runway', '27L', true, 'the runway'],
    ['runway', '27R', false, 'the parallel runway'],
    ['runway', '09', false, 'the other end'],
    ['flap', '15', true, 'the flap'],
    ['flap', '5', false, 'another flap'],
  ])('is compared with what the sheet states: %s %s, agrees %s (%s)', (name, value, agrees, _) => {
    const source = name === 'fuel' ? 'loadSheet' : 'takeoffData'
    const { figures, problems } = figuresOf(typed, { values, stated: { [source]: { [name]: value } } })
    expect(problems.map(({ code }) => code)).toEqual(agrees ? [] : ['source.differs'])
    expect(figures[name]?.value).toBe(agrees ? values[name as keyof typeof values] : undefined)
    expect(figures[name]?.sources?.map(({ source: by, within }) => [by, within])).toEqual([
      ['entered', true],
      [source, agrees],
    ])
  })

  test('leaves what rests on it waiting until it is settled, on what was typed or on the sheet', () => {
    const stated = { loadSheet: { fuel: 8040 } }
    expect(figuresOf(typed, { values, stated }).figures.double?.why[0]?.text).toBe('waits for fuel on board')
    const on = (use: string) =>
      figuresOf(typed, { values, stated, settled: { fuel: { use, reason: 'gauges read so' } } }).figures.double?.value
    expect([on('entered'), on('loadSheet'), on('computed')]).toEqual([16800, 16080, undefined])
  })

  test('says so without a tolerance where the figure is text', () => {
    const { problems } = figuresOf(typed, { values, stated: { takeoffData: { runway: '27R' } } })
    expect(problems[0]?.message).toBe('runway: sources differ (entered 27L, takeoff data 27R); choose one and say why')
  })
})

describe('a sheet that prints to ten', async () => {
  const pack = await packAt('checklists/marram')
  const sheet = revision(pack, 'preliminary')
  const by = (zeroFuelWeight: number) =>
    figuresOf(pack.figures, { ...sheet, stated: { loadSheet: { zeroFuelWeight } } })

  test('is compared as both are printed: the stations add up to 24,364 kg', () => {
    const found = (stated: number) => by(stated).figures.zeroFuelWeight?.sources?.at(-1)
    expect(found(24360)).toMatchObject({ difference: 0, within: true })
    expect(found(24364)).toMatchObject({ difference: 0, within: true })
    expect(found(24340)).toMatchObject({ difference: -20, within: true })
    expect(found(24330)).toMatchObject({ difference: -30, within: false })
    expect(found(24790)).toMatchObject({ difference: 430, within: false })
    expect(
      by(24790)
        .problems.map(({ message }) => message)
        .join(),
    ).toContain('computed 24,360 kg, load sheet 24,790 kg')
  })
})

describe('a weight that is settled on another source than the stations', async () => {
  const pack = await packAt('checklists/marram')
  const sheet = revision(pack, 'preliminary')
  const stated = {
    ...sheet.stated,
    loadSheet: { ...sheet.stated?.loadSheet, zeroFuelWeight: 23500, takeoffWeight: 28560 },
  }
  const on = (use: string, more: Partial<Inputs> = {}) =>
    figuresOf(pack.figures, { ...sheet, stated, settled: { zeroFuelWeight: { use, reason: 'late' } }, ...more })

  test("takes that source's centre of gravity and the trim by it, and no other is worked out", () => {
    const { figures, problems } = on('loadSheet')
    expect(figures.takeoffCg?.value).toBe(23.5)
    expect(figures.takeoffTrim?.value).toBe(4.3)
    expect([figures.takeoffArm?.value, figures.zeroFuelCg?.value, figures.landingCg?.value]).toEqual(
      Array(3).fill(undefined),
    )
    expect(problems.find(({ code }) => code === 'source.mixed')?.message).toBe(
      'zero fuel CG arm, landing CG arm not worked out: zero fuel weight is settled on the load sheet, the moment is that of the stations: no centre of gravity comes of both. Put the loads right, or settle on the computed value',
    )
    expect(problems.some(({ code }) => code.startsWith('limit.'))).toBe(false)
  })

  test('leaves centre of gravity and trim without a value where that source states none, and says why', () => {
    const weights = { zeroFuelWeight: 23500, takeoffWeight: 28560 }
    const { figures, problems } = on('loadSheet', { stated: { ...stated, loadSheet: weights } })
    expect([figures.takeoffCg?.value, figures.takeoffTrim?.value]).toEqual([undefined, undefined])
    expect(figures.takeoffTrim?.why[0]?.text).toMatch(/^zero fuel weight is settled on the load sheet, the moment/)
    expect(problems.filter(({ code }) => code === 'source.mixed')).toHaveLength(1)
  })

  test('works all of it out by the stations once it is settled back on them', () => {
    const settled = {
      zeroFuelWeight: { use: 'computed', reason: 'added twice' },
      takeoffWeight: { use: 'computed', reason: 'too' },
    }
    const { figures, problems } = on('computed', { settled })
    expect([figures.takeoffCg?.value, figures.zeroFuelCg?.value]).toEqual([23.5, 21.8])
    expect(problems).toEqual([])
  })

  test('still has the fuel computed with it, whoever stated the fuel', () => {
    const fuel = { ...stated, loadSheet: { ...sheet.stated?.loadSheet, blockFuel: 5640, takeoffWeight: 29820 } }
    const settled = { blockFuel: { use: 'loadSheet', reason: 'fuelled since' } }
    const { figures } = on('computed', { stated: fuel, settled })
    expect([figures.takeoffWeight?.value, figures.takeoffArm?.mixed]).toEqual([29820, undefined])
  })

  test('is compared by the other sources with what was settled, never with a mix', () => {
    const more = { ...stated, flightComputer: { takeoffCg: 25 } }
    const { figures } = on('loadSheet', { stated: more })
    expect(figures.takeoffCg?.value).toBeUndefined()
    expect(figures.takeoffCg?.sources?.map(({ source, within }) => [source, within])).toEqual([
      ['loadSheet', true],
      ['flightComputer', false],
    ])
  })
})
