import { describe, expect, it } from 'vitest'
import { computedViews } from '../../src/app/figures/computedView.ts'
import { draftView } from '../../src/app/figures/draftView.ts'
import { envelopeView } from '../../src/app/figures/envelopeView.ts'
import { enteredNumber, enteredValue, fieldGroups } from '../../src/app/figures/fields.ts'
import { hiddenFigures } from '../../src/app/figures/hiddenFigures.ts'
import { sourcedViews } from '../../src/app/figures/sourcesView.ts'
import { tableView } from '../../src/app/figures/tableView.ts'
import { dealtBy } from '../../src/app/run/beginning.ts'
import { createAppStore, EMPTY_DRAFT } from '../../src/app/store.ts'
import { compute } from '../../src/kernel/figures/compute.ts'
import { look } from '../../src/kernel/figures/lookup.ts'
import type { Table } from '../../src/kernel/figures/pack.ts'
import { packAt, revision } from '../kernel/figures/marram.ts'
import { demoInputs, demoPack, rig } from './rig.ts'

const pack = await demoPack()
const preliminary = compute(pack.figures, await demoInputs(pack, 'preliminary'))
const final = compute(pack.figures, await demoInputs(pack, 'final'))
const NONE = new Map<string, 'own' | 'near'>()

describe('what is typed in a field', () => {
  it.each([
    ['1200', 1200],
    ['1,200', 1200],
    ['12,345,678.5', 12345678.5],
    ['-5', -5],
    ['.5', 0.5],
    ['5.', 5],
    ['1,20', undefined],
    ['1e3', undefined],
    ['12 kg', undefined],
    ['', undefined],
    ['Infinity', undefined],
  ])('"%s" is the number %s', (text, number) => {
    expect(enteredNumber(text)).toBe(number)
  })

  it.each([
    [{ kind: 'runway' }, '27l', '27L'],
    [{ kind: 'digits', length: 4 }, '0421', '0421'],
    [{ kind: 'callsign', telephony: ['Tidewick'] }, ' Tidewick 421 ', 'TIDEWICK 421'],
    [{ kind: 'wind' }, '240/12g25', '240/12G25'],
    [{ kind: 'route' }, 'a3 b c1', 'A3 B C1'],
    [{ kind: 'speed' }, '14', 14],
    [{ kind: 'speed' }, 'calm', 'calm'],
    [{ kind: 'speed' }, '  ', undefined],
    [{ kind: 'trim', decimals: 1 }, '2.5 up', 2.5],
    [{ kind: 'trim', decimals: 1 }, '2.5 units nose down', -2.5],
    [{ kind: 'trim', decimals: 1 }, '2.5 left', '2.5 left'],
    [{ kind: 'weight', unit: 'kg' }, '24,360 kg', 24360],
    [{ kind: 'weight', unit: 'kg' }, '5000 lb', '5000 lb'],
    [{ kind: 'weight', unit: 'kg' }, '5000 or 5100', '5000 or 5100'],
    [{ kind: 'weight', unit: 'kg' }, '24.36 t', '24.36 t'],
  ] as const)('for %j "%s" is %s', (spec, text, value) => {
    expect(enteredValue(spec, text)).toBe(value)
  })
})

describe('a variation', () => {
  it.each([
    ['4 W', 4],
    ['4w', 4],
    ['12.5 east', -12.5],
    ['3° E', -3],
    ['0', 0],
    ['4', '4'],
    ['-4', '-4'],
  ])('typed "%s" is %s: west above zero, never by a sign', (text, value) => {
    expect(enteredValue({ kind: 'integer' }, text, 'degW')).toBe(value)
  })

  it('shows as it was typed', () => {
    const draft = { ...EMPTY_DRAFT, values: { variation: -4 } }
    const fields = fieldGroups(pack, draft, undefined, NONE, false).flatMap((group) => group.fields)
    expect(fields.find(({ name }) => name === 'variation')).toMatchObject({
      entered: '4 E',
      range: 'west or east: 4 W',
    })
  })
})

describe('a figure that a station gives', () => {
  const fieldsOf = (hasStations: boolean) =>
    fieldGroups(pack, EMPTY_DRAFT, undefined, NONE, hasStations).flatMap(({ fields }) => fields.map(({ name }) => name))

  it('is never typed where the stations speak', () => {
    expect(fieldsOf(true)).not.toContain('transponder')
    expect(fieldsOf(true)).toContain('altimeter')
  })

  it('is typed where they are left out, if a list asks for it', () => {
    expect(fieldsOf(false)).toContain('transponder')
    expect(fieldsOf(false)).not.toContain('holdingPoint')
  })
})

describe('what is hidden while a run is on', () => {
  it('is nothing before one', () => {
    expect(hiddenFigures(pack, undefined).size).toBe(0)
  })

  it('is also what is computed of a drawn departure that is not accepted yet; what is entered is there to be read', () => {
    const hidden = hiddenFigures(pack, undefined, { stand: 'push', icing: 'no' })
    for (const own of ['takeoffTrim', 'v1', 'vr', 'v2', 'takeoffCg', 'zeroFuelWeight']) {
      expect(hidden.get(own), own).toBe('own')
    }
    expect(hidden.get('takeoffArm')).toBe('near')
    for (const typed of ['blockFuel', 'runway', 'takeoffFlap']) expect(hidden.has(typed), typed).toBe(false)
    const drawn = dealtBy(pack, 7)
    if (!drawn) throw new Error('nothing was drawn')
    const draft = drawn.preliminary
    const shown = draftView(pack, {
      ...createAppStore().getState(),
      ...{ draft, preview: compute(pack.figures, draft), dealt: 7 },
    })
    expect(shown.computed.find(({ name }) => name === 'takeoffTrim')).toMatchObject({ shown: undefined, why: [] })
    expect(shown.limits.map(({ label }) => label)).not.toContain('takeoff weight')
    expect(shown.isDrawn).toBe(true)
  })

  it('leaves no limit out that has no value yet', () => {
    const draft = { ...EMPTY_DRAFT, values: { blockFuel: 5000 } }
    const view = draftView(pack, { ...createAppStore().getState(), draft, preview: compute(pack.figures, draft) })
    expect(view.untold).toEqual(expect.arrayContaining(['landing weight', 'takeoff trim']))
    const whole = { ...createAppStore().getState(), draft: EMPTY_DRAFT, preview: preliminary }
    expect(draftView(pack, whole).untold).toEqual([])
  })

  it('is what the pilot is asked for first, until the figures are accepted; what it is worked out by is there', () => {
    const draft = dealtBy(pack, 7)?.preliminary ?? EMPTY_DRAFT
    const initial = { ...createAppStore().getState(), draft, preview: compute(pack.figures, draft) }
    const shownOf = (ownValues: boolean) =>
      draftView(pack, { ...initial, settings: { ...initial.settings, ownValues } })
    const asked = shownOf(true)
    expect(asked.computed.find(({ name }) => name === 'takeoffTrim')).toMatchObject({ shown: undefined, why: [] })
    expect(asked.yours).toEqual(['takeoff trim'])
    expect(asked.limits.map(({ label }) => label)).not.toContain('takeoff trim')
    expect(asked.sourced.find(({ name }) => name === 'takeoffTrim')).toMatchObject({ shown: undefined, isHidden: true })
    expect(asked.computed.filter(({ hidden }) => hidden).map(({ name }) => name)).toEqual(['takeoffTrim'])
    const told = shownOf(false)
    expect(told.computed.find(({ name }) => name === 'takeoffTrim')?.shown).toBeDefined()
    expect(told.yours).toEqual([])
  })

  it('is what is read back, and every working that leads to it or follows from it', async () => {
    const { state } = await rig()
    const hidden = hiddenFigures(pack, state())
    expect(hidden.get('takeoffTrim')).toBe('own')
    expect(hidden.get('v1')).toBe('own')
    expect(hidden.get('v1Table')).toBe('near')
    expect(hidden.get('altimeterInches')).toBe('own')
    // Moments and arms in other dimensions give a trim away as surely.
    for (const working of ['takeoffMoment', 'takeoffArm', 'takeoffFuelMoment', 'sheetWeight', 'headwind']) {
      expect(hidden.get(working), working).toBe('near')
    }
    for (const typed of ['temperature', 'taxiFuel', 'windSpeed']) expect(hidden.has(typed), typed).toBe(false)
  })

  it('is no longer a working that was asked for; what it helps to work out is marked for good', async () => {
    const flight = await rig()
    await flight.hear('confirm takeoff moment')
    const hidden = hiddenFigures(pack, flight.state())
    expect(hidden.has('takeoffMoment')).toBe(false)
    expect(hidden.get('takeoffArm')).toBe('near')
    expect(flight.state().items['loadFigures.trim']?.revealed).toBe(true)
    expect(flight.state().items['beforeStart.altimeters']?.revealed).not.toBe(true)
  })
})

describe('the envelope picture', () => {
  it.each(['marram', 'pair'])(
    'of %s has a point for each envelope and revision, and a burn line from takeoff over landing to zero fuel',
    async (id) => {
      const own = await packAt(`checklists/${id}`)
      const [before, after] = (['preliminary', 'final'] as const).map((name) =>
        compute(own.figures, revision(own, name)),
      )
      const view = envelopeView(own, after, before, NONE)
      expect(view?.points.map(({ label, revision }) => `${label} ${revision}`)).toEqual([
        ...['zero fuel draft', 'takeoff draft', 'landing draft'],
        ...['zero fuel inForce', 'takeoff inForce', 'landing inForce'],
      ])
      for (const { label, weight, cg, forward, aft } of view?.points ?? []) {
        expect(cg - (forward ?? Number.NaN), `${label} at ${weight}`).toBeGreaterThan(0)
        expect((aft ?? Number.NaN) - cg, `${label} at ${weight}`).toBeGreaterThan(0)
      }
      const at = (label: string) => view?.points.find((point) => point.label === label)
      const burn = view?.burn ?? []
      // Along the tanks, not straight from point to point.
      expect(burn.length).toBeGreaterThan(3)
      expect(burn[0]?.weight).toBeCloseTo(at('takeoff')?.weight ?? 0, 6)
      // The takeoff CG is the one that the load sheet prints.
      expect(Math.abs((burn[0]?.cg ?? 0) - (at('takeoff')?.cg ?? 0))).toBeLessThanOrEqual(0.05)
      expect(burn.at(-1)?.weight).toBeCloseTo(at('zero fuel')?.weight ?? 0, 6)
      expect(burn.at(-1)?.cg).toBeCloseTo(at('zero fuel')?.cg ?? 0, 6)
      // The landing point is computed by the pack's own figures, the line from the tanks: they must meet.
      const landing = at('landing')
      const above = burn.findLast(({ weight }) => weight >= (landing?.weight ?? 0))
      const below = burn.find(({ weight }) => weight <= (landing?.weight ?? 0))
      expect(landing?.cg).toBeGreaterThan(Math.min(above?.cg ?? 0, below?.cg ?? 0) - 0.02)
      expect(landing?.cg).toBeLessThan(Math.max(above?.cg ?? 0, below?.cg ?? 0) + 0.02)
    },
  )

  it('shows one revision where both are the same, and no point while they are hidden', async () => {
    expect(envelopeView(pack, final, final, NONE)?.points).toHaveLength(3)
    const { state } = await rig()
    const view = envelopeView(pack, final, preliminary, hiddenFigures(pack, state()))
    expect(view).toMatchObject({ points: [], burn: [], isHidden: true })
  })
})

describe('a table with the cells in use', () => {
  const views = computedViews(pack, final, undefined, NONE, { stand: 'push', icing: 'no' })
  const table = (name: string) => {
    const figure = views.find((view) => view.name === name)
    return figure && tableView(figure, pack.figures.basis?.tables ?? {})
  }
  const used = (name: string) =>
    table(name)?.rows.flatMap(({ head, cells }) =>
      cells.flatMap(({ shown, used }) => (used ? [`${head}: ${shown}`] : [])),
    )

  it('has all rows of two axes, with as many decimals as the table', () => {
    expect(table('takeoffTrim')).toMatchObject({ rowAxis: 'takeoff CG, % MAC', columnAxis: 'flap', at: '' })
    expect(table('takeoffTrim')?.rows.map(({ head }) => head)).toEqual(['10', '14', '18', '22', '26', '30', '34'])
    expect(used('takeoffTrim')).toEqual(['26: 3.5', '30: 2.3'])
  })

  it('of three axes is cut at the choice in use', () => {
    expect(table('v1Table')).toMatchObject({ at: 'flap 12', columns: ['-1000', '3000', '7000'] })
    expect(used('v1Table')).toEqual(['29000: 125', '29000: 126', '32000: 132', '32000: 133'])
  })

  it('of four axes is cut twice: at the choice, then at what is met exactly', () => {
    const axes = [
      { name: 'weight', label: 'weight', unit: 'kg', at: [20, 30] },
      { name: 'flap', label: 'flap', choices: ['5', '15'] },
      { name: 'altitude', label: 'altitude', unit: 'ft', at: [0, 4000] },
      { name: 'temperature', label: 'temperature', unit: 'C', at: [0, 40] },
    ] as const
    const cells = Array.from({ length: 16 }, (_, place) => 100 + place)
    const table: Table = { name: 'speeds', label: 'speeds', unit: 'kt', axes, cells }
    const looked = look(table, [25, '15', 4000, 10])
    const why = [{ text: '', uses: [], cells: 'cells' in looked ? looked.cells : [] }]
    const [view] = views
    const shown = view && tableView({ ...view, why }, { speeds: table })
    expect(shown).toMatchObject({ at: 'flap 15, altitude 4000', rowAxis: 'weight, kg', columnAxis: 'temperature, °C' })
    expect(shown?.rows.map((row) => row.cells.map((cell) => cell.shown))).toEqual([
      ['106', '107'],
      ['114', '115'],
    ])
  })

  it('is missing where nothing was looked up', () => {
    expect(table('takeoffWeight')).toBeUndefined()
  })
})

describe('sources that differ during a run', () => {
  it('show both values once the difference was accepted, and none while it is only typed', async () => {
    const flight = await rig()
    await flight.hear('load figures list', { by: 'typed' })
    const { inputs = revision(pack, 'preliminary') } = flight.state()
    const odd = {
      ...inputs,
      stated: { ...inputs.stated, loadSheet: { ...inputs.stated?.loadSheet, zeroFuelWeight: 24_900 } },
    }
    const shownOf = (inForce: typeof inputs) => {
      const sets = [odd, inForce].map((one) => compute(pack.figures, one))
      const [preview, set = preview] = sets
      if (!set) throw new Error('nothing was computed')
      const hidden = hiddenFigures(pack, flight.state())
      const view = sourcedViews(pack, odd, preview, { inputs: inForce, set }, hidden).find(
        ({ name }) => name === 'zeroFuelWeight',
      )
      return [view?.isHidden, view?.shown, view?.choices.map(({ shown }) => shown)]
    }
    expect(shownOf(inputs)).toEqual([true, undefined, ['', '']])
    expect(shownOf(odd)).toEqual([false, '24,360 kg', ['24,360 kg', '24,900 kg']])
  })
})
