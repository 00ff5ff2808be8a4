import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, test } from 'vitest'
import { compute } from '../../src/kernel/figures/compute.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import { showProblem } from '../../src/kernel/problemLine.ts'
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
      /^load\.yaml:12:14: altimeter 29.8 hPa is out of range: 940 to 1,060 hPa$/,
    ],
    [
      'a code that lost its zero',
      '"4271"',
      '0427',
      /^load\.yaml:17:16: transponder "427" should be 4 digits from 0 to 7 \(in quotes\)$/,
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
      /^load\.yaml:21:3: no source is called "loadshed"; did you mean "loadSheet"\?$/,
    ],
    [
      'a situation that is none',
      'stand: push',
      'stand: pull',
      /^load\.yaml:4:20: situation stand has no "pull"; did you mean "push"\?$/,
    ],
    ['malformed YAML', 'status: final', 'status: [final', /^load\.yaml:2:9: "\[" is not closed by "\]"$/],
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
    expect(readInputs(JSON.stringify(inputs), 'load.json', pack)).toEqual({ inputs, expected: [], problems: [] })
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

describe('a sheet with a name that every object has', () => {
  const NAMES = ['__proto__', 'constructor', 'toString', 'hasOwnProperty']

  test.each([...NAMES, 'nosuch'])(
    'as a source (%s) is refused at its column, and nothing is changed by it',
    (source) => {
      const { inputs, problems } = readInputs(`status,preliminary\nblockFuel,6700,,${source}`, 'sheet.csv', pack)
      expect(problems.map(showProblem)).toEqual([
        `sheet.csv:2:17: blockFuel is not compared with "${source}"; there are loadSheet, flightComputer`,
      ])
      expect(inputs).toBeUndefined()
      expect('blockFuel' in {}).toBe(false)
      expect(readInputs(text, 'load.yaml', pack).problems).toEqual([])
    },
  )

  test.each(NAMES)('as a source (%s) in YAML is refused at its name', (source) => {
    expect(changed('  loadSheet:', `  ${source}:`)).toEqual([
      `load.yaml:21:3: "${source}" cannot be a name here; choose another`,
    ])
  })

  test.each(NAMES)('as a row (%s) is refused', (name) => {
    const { problems } = readInputs(`status,final\n${name},6700`, 'sheet.csv', pack)
    expect(problems.map(showProblem)).toEqual([
      expect.stringContaining(`sheet.csv:2:1: "${name}" is no figure, station or situation`),
    ])
  })

  test.each(NAMES)('as a value, a load or a situation (%s) is refused', (name) => {
    for (const from of ['taxiFuel: 180', 'aftHold: 930', 'stand: push']) {
      const to = `${name}: ${from.split(' ')[1]}`
      expect(changed(from, to)).toEqual([expect.stringContaining(`"${name}" cannot be a name here`)])
    }
  })
})

describe('a value that is none is refused where it stands', () => {
  test.each<[string, string, string]>([
    ['nothing for a status', 'status,', 'sheet.csv:1:1: status has no value'],
    ['no status', 'blockFuel,6700', 'sheet.csv:1:1: status is missing; it should be preliminary, final or amended'],
    [
      'an infinity cut by commas',
      'status,final\nblockFuel,In,fin,ity',
      'sheet.csv:2:18: blockFuel is not compared with "ity"; there are loadSheet, flightComputer',
    ],
    ['a power of ten', 'status,final\nblockFuel,"-1e+,308"', 'sheet.csv:2:11: "-1e+,308" should be a number in kg'],
    [
      'a decimal comma',
      'status,final\nblockFuel,5,64',
      'sheet.csv:2:13: "64" is no unit; a value with the separator in it belongs in quotes',
    ],
    [
      'a number beyond any aircraft',
      `status,final\nblockFuel,${'9'.repeat(20)}`,
      'sheet.csv:2:11: blockFuel 100000000000000000000 is too large; it should be at most 1,000,000,000,000',
    ],
    [
      'the same with its unit',
      `status,final\nblockFuel,${'9'.repeat(20)},kg`,
      `sheet.csv:2:11: "${'9'.repeat(20)} kg" is larger than anything of an aircraft`,
    ],
    [
      'a unit that every object has',
      'status,final\nblockFuel,6700,constructor',
      'sheet.csv:2:11: "constructor" is no unit that is known here; write kg',
    ],
    [
      'a row twice',
      'status,final\nblockFuel,6700\nblockFuel,6800',
      'sheet.csv:3:11: blockFuel stands twice; line 2 has it already',
    ],
    [
      'a quote never closed',
      'status,final\nblockFuel,"6700',
      'sheet.csv:2:11: the text that begins here is not closed by "',
    ],
    [
      'a cell too many',
      'status,final\nblockFuel,6700,kg,loadSheet,no',
      'sheet.csv:2:29: "no" is in no column; a value with the separator in it belongs in quotes',
    ],
    [
      'a source of what has none',
      'status,final\naftHold,300,,loadSheet',
      'sheet.csv:2:14: only a figure has a source, and aftHold is none',
    ],
    ['a unit of what has none', 'status,final\nstand,own,kg', 'sheet.csv:2:11: stand has no unit'],
    ['a row without a name', 'status,final\n,6700', 'sheet.csv:2:1: the row has no name'],
    [
      'a heading with a slip in it, whose units would be lost',
      'name,value,units\nstatus,final,\nblockFuel,6700,kg',
      'sheet.csv:1:12: "units" is no column; did you mean "unit"?',
    ],
    ['a heading twice', 'name,value,name\nstatus,final,', 'sheet.csv:1:12: "name" heads two columns'],
    [
      'no column of values',
      'name,valu\nstatus,final',
      'sheet.csv:1:1: no column is called "value"; there should be name, value, unit, source',
    ],
    [
      'nothing at all',
      '\n# remark\n',
      'sheet.csv:1:1: the sheet is empty; a row has a name and a value: blockFuel,6700',
    ],
    [
      'what cannot be seen',
      'status,final\n\u0000\u001b[2J,1',
      'sheet.csv:2:1: "\\u{0}\\u{1b}[2J" is no figure, station or situation',
    ],
  ])('in CSV: %s', (_, sheet, told) => {
    const { inputs, problems } = readInputs(sheet, 'sheet.csv', pack)
    expect(inputs).toBeUndefined()
    expect(problems.map(showProblem).map((line) => line.replace(/; there are status.*/, ''))).toEqual([told])
  })

  test.each<[string, string, string, RegExp]>([
    ['no status', 'status: final', '', /status is missing; it should be preliminary, final or amended$/],
    [
      'an empty status',
      'status: final',
      'status:',
      /^load\.yaml:2:1: status is empty; it should be preliminary, final or amended$/,
    ],
    [
      'a status that is a number',
      'status: final',
      'status: 3',
      /^load\.yaml:2:9: status is the number 3; it should be preliminary, final or amended$/,
    ],
    [
      'infinity',
      'taxiFuel: 180',
      'taxiFuel: .inf',
      /^load\.yaml:8:13: taxiFuel is beyond all numbers; it should be a text or a number$/,
    ],
    [
      'no number',
      'taxiFuel: 180',
      'taxiFuel: .nan',
      /^load\.yaml:8:13: taxiFuel is beyond all numbers; it should be a text or a number$/,
    ],
    [
      'a number beyond any aircraft',
      'aftHold: 930',
      'aftHold: 1e300',
      /^load\.yaml:5:88: aftHold 1e\+300 is too large; it should be at most 1,000,000,000,000$/,
    ],
    [
      'a value with lines in it',
      'taxiFuel: 180',
      'taxiFuel: "x\\ny"',
      /^load\.yaml:8:13: "x\\ny" should be a number in kg$/,
    ],
    [
      'a value of 300 letters',
      'taxiFuel: 180',
      `taxiFuel: ${'x'.repeat(300)}`,
      /^load\.yaml:8:13: taxiFuel is too long; it should have at most 100 letters$/,
    ],
    [
      'a name of 1,000 letters',
      'taxiFuel: 180',
      `"${'x'.repeat(1_000)}": 180`,
      /^load\.yaml:8:3: no figure is called "x{60}\.\.\." \(1000 characters\); there are/,
    ],
    [
      'a source that no figure has, for five of them',
      'loadSheet:',
      'loadshed:',
      /^load\.yaml:21:3: no source is called "loadshed"; did you mean "loadSheet"\?$/,
    ],
  ])('in YAML: %s', (_, from, to, told) => {
    expect(changed(from, to)).toEqual([expect.stringMatching(told)])
  })
})

test('a CSV load sheet with many mistakes has all of them told at once', () => {
  const rows = ['status,final', 'blokFuel,5640', 'runway,7', 'v1,abc,kt,takeoffData', 'zeroFuelWeight,1,in,loadSheet']
  const { inputs, problems } = readInputs(rows.join('\n'), 'sheet.csv', pack)
  expect(inputs).toBeUndefined()
  expect(problems.map(({ place }) => place?.line).sort()).toEqual([2, 3, 4, 5])
})
