import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, test } from 'vitest'
import { compute } from '../../src/kernel/figures/compute.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import { showProblem } from '../../src/kernel/problem.ts'
import { readInputs } from '../../src/packs/inputs.ts'
import { packAt, revision } from '../kernel/figures/marram.ts'

let pack: Pack
let text: string
beforeAll(async () => {
  pack = await packAt('checklists/marram')
  text = readFileSync('checklists/marram/inputs/final.yaml', 'utf8')
})

function changed(from: string | RegExp, to: string): string[] {
  const after = text.replace(from, to)
  expect(after).not.toBe(text)
  return readInputs(after, 'load.yaml', pack).problems.map(showProblem)
}

describe('a load sheet', () => {
  test.each([
    [
      'a negative load',
      'aftHold: 930',
      'aftHold: -930',
      /^load\.yaml:5:88: load aft hold -930 kg is negative; a load is zero or more$/,
    ],
    [
      'a station misspelt',
      'aftHold: 930',
      'afthold: 930',
      /^load\.yaml:5:79: no station is called "afthold"; did you mean "aftHold"\?$/,
    ],
    [
      'a figure misspelt',
      'taxiFuel: 180',
      'taxyFuel: 180',
      /^load\.yaml:8:3: no figure is called "taxyFuel"; did you mean "taxiFuel"\?$/,
    ],
    [
      'a computed figure among the entered ones',
      'taxiFuel: 180',
      'takeoffWeight: 30000',
      /^load\.yaml:8:18: takeoffWeight is computed, not entered; a source's value goes under stated$/,
    ],
    [
      'a unit that does not fit',
      'taxiFuel: 180',
      'taxiFuel: 180 hPa',
      /^load\.yaml:8:13: "180 hPa" is in hPa; this is given in kg$/,
    ],
    [
      'a unit that is none',
      'taxiFuel: 180',
      'taxiFuel: 180 stone',
      /^load\.yaml:8:13: "stone" is no unit that is known here; write kg$/,
    ],
    [
      'a value off its scale',
      'altimeter: 1009',
      'altimeter: 29.8',
      /^load\.yaml:12:14: altimeter 29.8 hPa is off its scale: 940 to 1,060 hPa$/,
    ],
    [
      'a code that lost its zero',
      '"4271"',
      '0427',
      /^load\.yaml:17:16: transponder "427" should be 4 digits \(in quotes\)$/,
    ],
    ['a runway that is none', 'runway: "24"', 'runway: "37"', /^load\.yaml:10:11: runway "37" should be 01 to 36/],
    [
      'a flap that the aircraft does not have',
      '"12"',
      '"15"',
      /^load\.yaml:16:16: takeoff flap "15" should be one of its positions: 7, 12, 19$/,
    ],
    [
      'a status that is none',
      'status: final',
      'status: finale',
      /^load\.yaml:2:9: status "finale" is not known; did you mean "final"\?$/,
    ],
    [
      'a source that the pack does not compare',
      'loadSheet:',
      'loadshed:',
      /^load\.yaml:19:\d+: zeroFuelWeight is not compared with "loadshed"; did you mean "loadSheet"\?$/,
    ],
    [
      'a situation that is none',
      'stand: push',
      'stand: pull',
      /^load\.yaml:4:20: situation stand has no "pull"; did you mean "push"\?$/,
    ],
    ['malformed YAML', 'status: final', 'status: [final', /^load\.yaml:\d+:\d+: malformed YAML/],
  ])('with %s is refused at its place', (_, from, to, problem) => {
    expect(changed(from, to)[0]).toMatch(problem)
    expect(readInputs(text.replace(from, to), 'load.yaml', pack).inputs).toBeUndefined()
  })

  test('with an unusual value is taken, with advice', () => {
    const { inputs, problems } = readInputs(text.replace('altimeter: 1009', 'altimeter: 951'), 'load.yaml', pack)
    expect(inputs?.values.altimeter).toBe(951)
    expect(problems).toMatchObject([
      { severity: 'advice', message: 'altimeter 951 hPa is unusual; normally 970 to 1,045 hPa' },
    ])
  })

  test('in other units is converted: pounds to kilograms, inches of mercury to hectopascals', () => {
    const other = text
      .replace('aftHold: 930', 'aftHold: "2,050 lb"')
      .replace('altimeter: 1009', 'altimeter: 29.80 inHg')
    const { inputs, problems } = readInputs(other, 'load.yaml', pack)
    expect(problems).toEqual([])
    expect(inputs?.loads.aftHold).toBeCloseTo(929.86, 2)
    expect(inputs?.values.altimeter).toBeCloseTo(1009.14, 2)
  })

  test('overweight is read, and the figures say so', () => {
    const { inputs } = readInputs(text.replace('aftHold: 930', 'aftHold: 1950'), 'load.yaml', pack)
    const codes = inputs && compute(pack.figures, inputs).problems.map(({ code }) => code)
    expect(codes).toContain('limit.station')
  })

  test('as JSON reads the same as in YAML', () => {
    const inputs = revision(pack, 'final')
    expect(readInputs(JSON.stringify(inputs), 'load.json', pack)).toEqual({ inputs, problems: [] })
  })

  test('with last-minute changes and a settled difference keeps them', () => {
    const more = `${text}lastMinute: [{station: rearCabin, count: 2}, {station: aftHold, weight: -40}]\nsettled: {zeroFuelWeight: {use: computed, reason: added again}}\n`
    expect(readInputs(more, 'load.yaml', pack).inputs).toMatchObject({
      lastMinute: [
        { station: 'rearCabin', count: 2 },
        { station: 'aftHold', weight: -40 },
      ],
      settled: { zeroFuelWeight: { use: 'computed', reason: 'added again' } },
    })
    const wrong = more.replace('aftHold, weight', 'afthold, weight').replace('use: computed', 'use: sheet')
    expect(readInputs(wrong, 'load.yaml', pack).problems.map(({ message }) => message)).toEqual([
      'zeroFuelWeight has no source "sheet"; there are computed, loadSheet, flightComputer',
      'no station is called "afthold"; did you mean "aftHold"?',
    ])
  })
})

describe('a load sheet as CSV', () => {
  const CSV = [
    'name,value,unit,source',
    'status,final',
    'label,"late sheet, gate 4"',
    'stand,own',
    'frontCabin,1596',
    'aftHold,2050,lb',
    'blockFuel,5640,kg',
    'transponder,"0427"',
    'zeroFuelWeight,24620,kg,loadSheet',
  ]

  test('reads names, values, units and sources', () => {
    const { inputs, problems } = readInputs(CSV.join('\n'), 'load.csv', pack)
    expect(problems).toEqual([])
    expect(inputs).toMatchObject({
      status: 'final',
      label: 'late sheet, gate 4',
      situation: { stand: 'own' },
      loads: { frontCabin: 1596 },
      values: { blockFuel: 5640, transponder: '0427' },
      stated: { loadSheet: { zeroFuelWeight: 24620 } },
    })
    expect(inputs?.loads.aftHold).toBeCloseTo(929.86, 2)
  })

  test('may have its columns in another order, separated by semicolons or tabs', () => {
    for (const separator of [';', '\t']) {
      const rows = [
        ['value', 'name'],
        ['preliminary', 'status'],
        ['1596', 'frontCabin'],
      ].map((row) => row.join(separator))
      expect(readInputs(rows.join('\r\n'), 'load.csv', pack).inputs).toMatchObject({
        status: 'preliminary',
        loads: { frontCabin: 1596 },
      })
    }
  })

  test('tells line and column of what is wrong', () => {
    const bad = [...CSV, 'aftHould,20', 'taxiFuel,some'].join('\n')
    expect(readInputs(bad, 'load.csv', pack).problems.map(showProblem)).toEqual([
      'load.csv:10:1: "aftHould" is no figure, station or situation; did you mean "aftHold"?',
      'load.csv:11:10: "some" should be a number in kg',
    ])
    const text = [...CSV, 'taxiFuel,some', 'rearCabin,-4'].join('\n')
    expect(readInputs(text, 'load.csv', pack).problems.map(showProblem)).toEqual([
      'load.csv:10:10: "some" should be a number in kg',
      'load.csv:11:11: load rear cabin -4 kg is negative; a load is zero or more',
    ])
  })
})

test('a CSV load sheet with many mistakes has all of them told at once', () => {
  const rows = [
    'status,final',
    'blokFuel,5640',
    'runway,7',
    'v1,abc,kt,performanceSheet',
    'zeroFuelWeight,1,in,loadSheet',
  ]
  const { inputs, problems } = readInputs(rows.join('\n'), 'sheet.csv', pack)
  expect(inputs).toBeUndefined()
  expect(problems.map(({ place }) => place?.line).sort()).toEqual([2, 3, 4, 5])
})
