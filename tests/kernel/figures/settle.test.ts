import { describe, expect, test } from 'vitest'
import type { Inputs } from '../../../src/kernel/figures/model.ts'
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
          'zero fuel weight: sources differ by more than 20 kg (computed 21,500 kg, loadSheet 21,530 kg); choose one and say why',
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
    expect(sheet.figures.zeroFuelWeight?.why.at(-1)?.text).toBe('settled on loadSheet 21,530 kg: catering came late')
    const own = set(stated, { zeroFuelWeight: { use: 'computed', reason: 'the sheet adds wrongly' } })
    expect(own.figures.takeoffWeight?.value).toBe(26500)
  })

  test.each([
    ['no reason', { use: 'computed', reason: ' ' }],
    ['a source that stated nothing', { use: 'flightComputer', reason: 'it says so' }],
  ])('are not settled by %s', (_, settlement) => {
    const { figures } = set({ loadSheet: { zeroFuelWeight: 21530 } }, { zeroFuelWeight: settlement })
    expect(figures.zeroFuelWeight?.value).toBeUndefined()
  })
})
