import { describe, expect, it } from 'vitest'
import type { Figures, Value } from '../../../src/kernel/kinds/kind.ts'
import { type CauseSearch, findCauses } from '../../../src/kernel/response/causes.ts'
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

describe('a value that was read wrong', () => {
  const figures: Figures = {
    squawk: { kind: 'digits', length: 4, value: '4271' },
    count: { kind: 'integer', value: 4271 },
    other: { kind: 'digits', length: 4, value: '0005' },
    five: { kind: 'integer', value: 2 },
    flap: { kind: 'choice', value: '15', options: { '15': ['fifteen'], '51': ['fifty one'] } },
    up: { kind: 'trim', decimals: 1, value: 5.2 },
    down: { kind: 'trim', decimals: 1, value: -5.2 },
    runway: { kind: 'runway', value: '27L' },
  }
  const causesOf = (figure: string, read: Value, more: Partial<CauseSearch> = {}) =>
    findCauses({ figure, read, figures, ...more }).map(({ cause, detail }) => `${cause} ${detail}`)

  it.each([
    ['squawk', '2471', 'digitsSwapped four two'],
    ['squawk', '4217', 'digitsSwapped seven one'],
    ['squawk', '1724', ''],
    ['squawk', '427', ''],
    ['count', 2471, 'digitsSwapped four two'],
    ['down', -2.5, 'digitsSwapped five two'],
    ['up', -2.5, ''],
    ['runway', '72L', 'digitsSwapped two seven'],
    ['runway', '72l', 'digitsSwapped two seven'],
    ['runway', '72R', ''],
    ['flap', '51', ''],
  ])('%s as %s: two digits next to each other changed places, of the same side and sign: "%s"', (name, read, cause) => {
    expect(causesOf(name, read)).toEqual(cause === '' ? [] : [cause])
  })

  it.each([
    ['squawk', '0005', 'otherFigure other'],
    ['squawk', '2', 'otherFigure five'],
    ['up', -5.2, 'otherFigure down'],
  ])('%s as %s: it may be that of another item, by its own name where it has no other: "%s"', (name, read, cause) => {
    expect(causesOf(name, read)).toEqual([cause])
  })

  it('tells each cause once, whatever number of tables and revisions has it', () => {
    const at = (cause: 'neighbourRow' | 'otherFlap', detail: string, value = 4.1) => ({ cause, detail, value })
    const neighbours = [at('neighbourRow', 'up'), at('neighbourRow', 'up'), at('neighbourRow', 'down')]
    const history = [
      { revision: 1, label: 'first figures', values: { up: 4.1 } },
      { revision: 2, label: 'second figures', values: {} },
      { revision: 3, label: 'third figures', values: { up: 4.1 } },
    ]
    const more = { neighbours: [...neighbours, at('otherFlap', 'up'), at('otherFlap', 'gone', 4.2)], history }
    expect(causesOf('up', 4.1, more)).toEqual([
      ...['earlierRevision first figures', 'earlierRevision third figures'],
      ...['neighbourRow up', 'neighbourRow down', 'otherFlap up'],
    ])
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
