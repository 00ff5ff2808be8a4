import { beforeAll, describe, expect, test } from 'vitest'
import { readPackDir } from '../../../../src/cli/packDir.ts'
import type { Inputs } from '../../../../src/kernel/figures/model.ts'
import type { Pack } from '../../../../src/kernel/pack/checklist.ts'
import { emptyRun } from '../../../../src/kernel/run/core/emptyRun.ts'
import { scriptedWith, slippedValue } from '../../../../src/kernel/run/talk/said.ts'
import { beforeStations, figuresOfStations, scriptFor } from '../../../../src/kernel/run/talk/script.ts'
import { readInputs } from '../../../../src/packs/inputs.ts'
import { readPack } from '../../../../src/packs/read.ts'

const FIGURES = `
figures:
  runway: {label: runway, kind: runway, entered: {}}
  qnh: {label: altimeter, kind: altimeter, unit: hPa, entered: {}}
  level: {label: first level, kind: altitude, given: {from: {min: 3000, max: 6000, step: 1000}}}
  squawk: {label: transponder, kind: digits, length: 4, given: {from: ["4271", "2613", "0457"]}}
  holding: {label: holding point, kind: identifier, given: {from: {by: runway, of: {"06": ["A1"], "24": ["C3", "C2"]}}}}
`
const PROCEDURES = `
phases:
  - phase: start
    name: Start
    activities:
      - exchange: clearance
        name: departure clearance
        with: {role: controller, name: Sandmere Delivery}
        turns:
          - turn: clearance
            label: departure clearance
            elements:
              - {element: level, label: level, says: "climb to <level>", readBack: "[climb] [to] <level>"}
              - {element: squawk, label: squawk, says: "squawk <squawk>", readBack: "[squawk] <squawk>"}
              - {element: qnh, label: altimeter, says: "altimeter <qnh>"}
            sets: [level, squawk, qnh]
      - exchange: order
        name: order
        with: {role: otherseat, name: Otherseat}
        turns:
          - {turn: holding, label: holding, calls: "holding <runway>", opens: "holding <runway>"}
`
let pack: Pack
beforeAll(async () => {
  const { texts } = await readPackDir('checklists/marram')
  const own = { 'pack.yaml': texts['pack.yaml'] ?? '', 'figures.yaml': FIGURES, 'procedures.yaml': PROCEDURES }
  const { pack: read } = readPack(own, '')
  if (!read) throw new Error('the pack of this test has a mistake')
  pack = read
})

const INPUTS: Inputs = { status: 'final', values: { runway: '24', qnh: 1009 }, loads: {} }

/** What is said on a runway, of a script that was written for 24. */
const saidOf = (seed: number, runway: string) => scriptedWith(scriptFor(pack, INPUTS, seed), { runway })

describe('what stations will say', () => {
  test('is the same for the same seed, and something else for another one', () => {
    const scripts = Array.from({ length: 40 }, (_, seed) => JSON.stringify(scriptFor(pack, INPUTS, seed)))
    expect(Array.from({ length: 40 }, (_, seed) => JSON.stringify(scriptFor(pack, INPUTS, seed)))).toEqual(scripts)
    expect(new Set(scripts).size).toBeGreaterThan(5)
  })

  test('is one of the values that the pack has for it, and fits the figure it goes by', () => {
    for (let seed = 0; seed < 200; seed++) {
      const values = saidOf(seed, '24')
      expect([3000, 4000, 5000, 6000]).toContain(values.level)
      expect(['4271', '2613', '0457']).toContain(values.squawk)
      expect(['C3', 'C2']).toContain(values.holding)
    }
  })

  test('goes by the runway that is in use when it is said, not by the one of the papers at the beginning', () => {
    const holding = Array.from({ length: 40 }, (_, seed) => ['24', '06'].map((runway) => saidOf(seed, runway).holding))
    expect(new Set(holding.map(String))).toEqual(new Set(['C3,A1', 'C2,A1']))
    expect(saidOf(1, '33').holding).toBeUndefined()
  })

  test('is said as it stands where it is entered: only what a station gives is written down', () => {
    const { values, by = {} } = scriptFor(pack, INPUTS, 1)
    expect([...Object.keys(values), ...Object.keys(by)]).toEqual(['level', 'squawk', 'holding'])
  })

  test('is what the revision says it is', () => {
    const said = { qnh: 1010, level: 4000 }
    for (let seed = 0; seed < 20; seed++) expect(scriptFor(pack, { ...INPUTS, said }, seed).values).toMatchObject(said)
  })

  test('is what was entered for a figure that a station gives, and that is not in the figures before', () => {
    const inputs = { ...INPUTS, values: { ...INPUTS.values, squawk: '7036', holding: 'C9' } }
    const script = scriptFor(pack, inputs, 3)
    expect(scriptedWith(script, { runway: '24' })).toMatchObject({ squawk: '7036', holding: 'C9' })
    expect(scriptedWith(script, { runway: '06' })).toMatchObject({ squawk: '7036', holding: 'A1' })
    expect(beforeStations(pack, inputs).values).toEqual(INPUTS.values)
  })

  test('is of stations: orders between the seats are none', () => {
    expect(figuresOfStations(pack)).toEqual(['level', 'squawk', 'qnh'])
  })

  test('may be fixed in a revision, where some station says the figure', () => {
    const read = (said: string) => readInputs(`status: final\nsaid: {${said}}\n`, 'inputs.yaml', pack)
    expect(read('qnh: 1010').inputs?.said).toEqual({ qnh: 1010 })
    expect(read('qmh: 1010').problems).toMatchObject([
      { message: 'no figure is called "qmh"; did you mean "qnh"?', place: { line: 2, column: 8 } },
    ])
    expect(read('runway: "24"').problems).toMatchObject([
      { message: 'no station says runway; there are level, squawk, qnh' },
    ])
    expect(read('squawk: 42').problems).toMatchObject([{ message: expect.stringContaining('should be 4 digits') }])
  })
})

describe('a slip of the controller', () => {
  const slips = () =>
    Array.from({ length: 300 }, (_, seed) => ({ seed, script: scriptFor(pack, INPUTS, seed, { slips: true }) }))

  test('is drawn only where it is switched on, and changes nothing else', () => {
    for (const { seed, script } of slips()) {
      const { slip, ...rest } = script
      expect(slip).toBeDefined()
      expect(rest).toEqual(scriptFor(pack, INPUTS, seed))
    }
  })

  test('is about a figure that is read back, with a value that is another one of its kind', () => {
    const found = new Set<string>()
    for (const { script } of slips()) {
      const { slip } = script
      if (!slip) throw new Error('no slip')
      const { turn, figure, kind } = slip
      expect(turn).toBe('clearance.clearance')
      found.add(`${figure} ${kind}`)
      const value = slippedValue(pack, { ...emptyRun('slip'), values: INPUTS.values, script }, slip)
      expect(value).not.toBe(script.values[figure])
      if (figure === 'level') expect(Math.abs(Number(value) - Number(script.values.level))).toBe(1000)
      else expect(value).toMatch(/^\d{4}$/)
    }
    expect([...found].sort()).toEqual([
      'level acceptsWrong',
      'level saysAnother',
      'squawk acceptsWrong',
      'squawk saysAnother',
    ])
  })
})
