import { describe, expect, test } from 'vitest'
import type { LastMinuteChange } from '../../../src/kernel/figures/model.ts'
import { derived, figuresOf, modelOf } from './modelOf.ts'

const model = modelOf({
  units: { weight: 'kg', arm: 'm' },
  stations: { rowTwelve: { label: 'row 12', arm: 15, max: 600, each: 84 }, aftHold: { label: 'aft hold', arm: 22 } },
  lastMinute: { most: 500 },
  figures: {
    loads: { label: 'loads', kind: 'weight', unit: 'kg', derived: { by: 'loadedWeight' } },
    moment: derived('kg m', { by: 'loadedMoment' }),
    change: { label: 'change', kind: 'integer', unit: 'kg', derived: { by: 'lastMinuteWeight' } },
    changeMoment: derived('kg m', { by: 'lastMinuteMoment' }),
    total: { label: 'total', kind: 'weight', unit: 'kg', derived: { by: 'sum', of: ['loads', 'change'] } },
    totalMoment: derived('kg m', { by: 'sum', of: ['moment', 'changeMoment'] }),
  },
})

const set = (...lastMinute: LastMinuteChange[]) =>
  figuresOf(model, { loads: { rowTwelve: 420, aftHold: 700 }, lastMinute })

describe('last-minute changes', () => {
  test('"two more in row 12, 300 off the aft hold" are a delta in weight and moment', () => {
    const { figures, problems } = set({ station: 'rowTwelve', count: 2 }, { station: 'aftHold', weight: -300 })
    expect(problems).toEqual([])
    expect(figures.change?.value).toBe(-132)
    expect(figures.total?.value).toBe(988)
    expect(figures.change?.why[0]?.text).toBe('row 12 168 + aft hold -300 = -132 kg')
  })

  test('give what the loads would give if they had been entered so', () => {
    const changed = set({ station: 'rowTwelve', count: 1 }, { station: 'aftHold', weight: -120 })
    const entered = figuresOf(model, { loads: { rowTwelve: 504, aftHold: 580 } })
    expect(changed.figures.total?.value).toBe(entered.figures.total?.value)
    expect(changed.figures.totalMoment?.exact).toBeCloseTo(entered.figures.totalMoment?.exact ?? 0, 9)
  })

  test('none are no change', () => {
    expect(set().figures.change).toMatchObject({ value: 0, why: [{ text: 'no last-minute change' }] })
  })

  test.each([
    [
      'over the limit for them need a new load sheet',
      [
        { station: 'aftHold', weight: -400 },
        { station: 'rowTwelve', count: 2 },
      ],
      'limit.lastMinute',
      'last-minute changes of 568 kg together are over 500 kg: a new load sheet is needed',
    ],
    [
      'cannot take off more than is there',
      [{ station: 'aftHold', weight: -710 }],
      'load.negative',
      'last-minute change at aft hold: 710 off, there were 700 kg',
    ],
    [
      'cannot overload a station',
      [{ station: 'rowTwelve', count: 3 }],
      'limit.station',
      'load row 12 672 kg is over its limit of 600 kg after the last-minute change',
    ],
    [
      'name a station',
      [{ station: 'tail', weight: 5 }],
      'load.unknown',
      'last-minute change: no station is called tail; there are rowTwelve, aftHold',
    ],
    [
      'by count need a standard weight',
      [{ station: 'aftHold', count: 2 }],
      'load.number',
      'last-minute change at aft hold: the station has no standard weight, so say weight',
    ],
  ])('%s', (_, changes, code, message) => {
    expect(set(...(changes as LastMinuteChange[])).problems).toContainEqual({ code, severity: 'error', message })
  })
})
