/** Tables as cards have them: read at an entry, with holes; and figures worked out of others. */

import { describe, expect, it, test } from 'vitest'
import { compute } from '../../src/kernel/figures/compute.ts'
import { authored, problemsIn, sheet, withoutColumns } from './authored.ts'

const TABLES = `tables:
  torque:
    label: takeoff torque
    unit: ft lb
    axes:
      - {name: altitude, label: pressure altitude, unit: ft, at: [0, 4000, 8000], read: higher}
      - {name: oat, label: temperature, unit: C, at: [15, 30, 45]}
    cells:
      - [1900, 1800, 1700]
      - [1820, 1720, 1600]
      - [1740, 1650, "---"]
`
const FIGURES = `
  altitude: {label: pressure altitude, kind: altitude, entered: {}}
  oat: {label: temperature, kind: temperature, unit: C, entered: {}}
  torque: {label: torque, kind: integer, unit: ft lb, derived: {by: lookUp, table: torque, at: {altitude: altitude, oat: oat}}}
`
const torqueAt = (altitude: number, oat: number, tables = TABLES) => {
  const pack = authored({
    figures: FIGURES,
    tables,
    entries: '- {item: torque, challenge: torque, response: "<torque>"}',
  })
  const { figures, problems } = compute(pack.figures, sheet({ altitude, oat }))
  return figures.torque?.value ?? problems.map(({ message }) => message).join()
}

describe('a table that is read at an entry', () => {
  test.each([
    ['higher', 2000, 30, 1720],
    ['higher', 4000, 30, 1720],
    ['higher', 0, 22.5, 1850],
    ['lower', 2000, 30, 1800],
    ['lower', 8000, 30, 1650],
    ['nearest', 1999, 30, 1800],
    ['nearest', 2000, 30, 1720],
    [
      'higher',
      9000,
      30,
      'torque: table takeoff torque: pressure altitude 9,000 ft is outside its axis altitude: 0 to 8,000 ft',
    ],
  ])('at the %s one: %s ft and %s degrees give %s', (read, altitude, oat, torque) => {
    expect(torqueAt(altitude, oat, TABLES.replace('read: higher', `read: ${read}`))).toBe(torque)
  })

  it('says at which', () => {
    const pack = authored({ figures: FIGURES, tables: TABLES })
    const { why } = compute(pack.figures, sheet({ altitude: 2000, oat: 30 })).figures.torque ?? {}
    expect(why?.[0]?.text).toBe(
      'table takeoff torque at pressure altitude 2,000 ft, read at 4,000 ft, temperature 30°C: 1,720 ft lb',
    )
  })
})

test.each([
  [5000, 30, 1650],
  [5000, 45, 'torque: table takeoff torque: nothing is given at pressure altitude 8,000 ft, temperature 45°C'],
  [5000, 31, 'torque: table takeoff torque: nothing is given at pressure altitude 8,000 ft, temperature 45°C'],
  [3000, 45, 1600],
])('where nothing is given nothing is made up: %s ft and %s degrees give %s', (altitude, oat, torque) => {
  expect(torqueAt(altitude, oat)).toBe(torque)
})

it('an empty cell is still to be filled in, and another word is no cell', () => {
  const of = (cell: string) => withoutColumns(problemsIn({ figures: FIGURES, tables: TABLES.replace('"---"', cell) }))
  expect(of('~')[0]).toContain('tables.yaml:11')
  expect(of('none')[0]).toContain('tables.yaml:11')
})

describe('figures worked out of others', () => {
  const PACK = authored({
    figures: `
  stall: {label: stall speed, kind: speed, entered: {}}
  trip: {label: trip fuel, kind: weight, entered: {}}
  share: {label: contingency, kind: decimal, decimals: 0, unit: percent, constant: 5}
  left: {label: left tank, kind: weight, entered: {}}
  right: {label: right tank, kind: weight, entered: {}}
  five: {label: five minutes, kind: weight, constant: 40}
  approach: {label: approach speed, kind: speed, round: {step: 1, direction: up}, derived: {by: product, of: stall, times: [1.3]}}
  percent: {label: contingency fuel by share, kind: weight, derived: {by: product, of: trip, times: [share]}}
  contingency: {label: contingency fuel, kind: weight, derived: {by: most, of: [percent, five]}}
  difference: {label: tank difference, kind: weight, derived: {by: difference, of: left, less: [right]}}
  imbalance: {label: imbalance, kind: weight, limits: {max: 60}, derived: {by: absolute, of: difference}}
  burned: {label: share of fuel, kind: decimal, decimals: 1, unit: percent, derived: {by: ratio, of: trip, over: left}}
`,
  })
  const valuesOf = (values: Record<string, number>) => {
    const { figures, problems } = compute(PACK.figures, sheet(values))
    const all = ['approach', 'contingency', 'imbalance', 'burned'].map((name) => figures[name]?.value)
    return [...all, ...problems.map(({ message }) => message)]
  }

  test('1.3 times the stall speed (14 CFR 23.73, Amendment 23-50, from memory), five percent of the trip fuel but not less than five minutes (ICAO Annex 6 part I, 4.3.6.3, from memory)', () => {
    expect(valuesOf({ stall: 61, trip: 1000, left: 500, right: 480 })).toEqual([80, 50, 20, 200])
    expect(valuesOf({ stall: 60, trip: 600, left: 480, right: 500 })).toEqual([78, 40, 20, 125])
  })

  it('nothing is divided by zero, and an imbalance beyond its limit is told on either side', () => {
    expect(valuesOf({ stall: 60, trip: 600, left: 0, right: 100 })).toEqual([
      78,
      40,
      100,
      undefined,
      'share of fuel: left tank 0 lb is zero; nothing can be divided by it',
      'imbalance over its limit by 40 lb (100 lb, limit 60 lb)',
    ])
  })
})
