import { describe, expect, it } from 'vitest'
import { findCauses } from '../../../src/kernel/response/causes.ts'
import type { Cause } from '../../../src/kernel/response/model.ts'
import { LINEAGE_CAUSES, lineageCases } from '../../corpus/lineage.ts'

const FIGURES = {
  trim: { kind: 'trim', decimals: 1, value: 5.2 },
  landingTrim: { kind: 'trim', decimals: 1, value: 4.8 },
  v1: { kind: 'speed', value: 128 },
  vr: { kind: 'speed', value: 131 },
  weight: { kind: 'weight', unit: 'kg', value: 8400 },
  count: { kind: 'integer', value: 5 },
  qnh: { kind: 'altimeter', unit: 'hPa', value: 1013 },
} as const
const HISTORY = [
  { revision: 1, label: 'preliminary figures', values: { trim: 5.6, v1: 126, weight: 8200 } },
  { revision: 2, label: 'final figures', values: { trim: 5.2, v1: 128, weight: 8400 } },
]

describe('where a wrong number came from', () => {
  it.each([
    ['trim', 5.6, [{ cause: 'earlierRevision', detail: 'preliminary figures' }]],
    ['trim', 4.8, [{ cause: 'otherFigure', detail: 'landing trim' }]],
    ['v1', 131, [{ cause: 'otherFigure', detail: 'rotate speed' }]],
    ['v1', 182, [{ cause: 'digitsSwapped', detail: 'two eight' }]],
    ['trim', 2.5, [{ cause: 'digitsSwapped', detail: 'five two' }]],
    ['weight', 18_519, [{ cause: 'otherUnit', detail: 'lb' }]],
    ['weight', 18_500, [{ cause: 'otherUnit', detail: 'lb' }]],
    ['qnh', 29.91, [{ cause: 'otherUnit', detail: 'inHg' }]],
    ['trim', 6.1, [{ cause: 'neighbourRow', detail: 'one row up' }]],
    ['trim', 9.9, []],
    ['trim', 5.2, []],
    ['gone', 5.2, []],
    ['count', 5, []],
    ['count', 55, []],
    ['v1', 1282, []],
    ['v1', 12, []],
    ['v1', 129, []],
  ] as const)('%s read as %d', (figure, read, causes) => {
    const found = findCauses({
      figure,
      read,
      figures: FIGURES,
      labels: { landingTrim: 'landing trim', vr: 'rotate speed' },
      history: HISTORY,
      neighbours: [{ cause: 'neighbourRow', detail: 'one row up', value: 6.1 }],
    })
    expect(found).toEqual(causes)
  })

  it('names all causes that fit, never one of two', () => {
    const found = findCauses({
      figure: 'trim',
      read: 2.5,
      figures: { ...FIGURES, landingTrim: { kind: 'trim', decimals: 1, value: 2.5 } },
      history: [{ revision: 1, label: 'preliminary figures', values: { trim: 2.5 } }],
    })
    expect(found.map(({ cause }) => cause)).toEqual(['earlierRevision', 'otherFigure', 'digitsSwapped'])
  })
})

describe('a thousand errors of each cause, injected', () => {
  it.each(LINEAGE_CAUSES)('%s is named, alone where it is the only one', (cause: Cause['cause']) => {
    let unique = 0
    let right = 0
    for (const each of lineageCases(cause, 1000)) {
      const found = findCauses(each.search).map((one) => one.cause)
      expect(found).toContain(cause)
      if (!each.alone) continue
      unique++
      if (found.length === 1) right++
    }
    expect(unique).toBeGreaterThan(500)
    expect(right / unique).toBeGreaterThanOrEqual(0.99)
  })
})
