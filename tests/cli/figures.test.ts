import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { run } from '../../src/cli/figures.ts'
import { runCommand } from './io.ts'

const PACK = ['--pack', 'checklists/marram']
const revision = (name: string) => `checklists/marram/inputs/${name}.yaml`
const lines = (output: string) =>
  output
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as Record<string, unknown>)

let dir: string
beforeAll(() => {
  dir = mkdtempSync(join(tmpdir(), 'inputs-'))
})
afterAll(() => rmSync(dir, { recursive: true }))

function changedInputs(from: string, to: string): string {
  const file = join(dir, 'changed.yaml')
  writeFileSync(
    file,
    readFileSync(revision('final'), 'utf8').replace(from, () => to),
  )
  return file
}

describe('figures', () => {
  test('prints every figure with value, unit, spoken form and why', async () => {
    const { status, output, errors } = await runCommand(run, [...PACK, '--inputs', revision('final')])
    expect([status, errors]).toEqual([0, ''])
    const figures = lines(output)
    expect(figures.find(({ figure }) => figure === 'takeoffTrim')).toMatchObject({
      label: 'takeoff trim',
      value: 3.1,
      unit: 'units',
      spoken: 'three point one up',
      preliminary: false,
      why: [{ uses: ['takeoffCg', 'takeoffFlap'], cells: [{ table: 'takeoffTrim' }, { table: 'takeoffTrim' }] }, {}],
    })
    expect(figures.find(({ figure }) => figure === 'windGust')).toMatchObject({ value: null })
    expect(figures.find(({ figure }) => figure === 'zeroFuelWeight')).toMatchObject({
      sources: [
        { source: 'computed', value: 24622 },
        { source: 'loadSheet', value: 24620, within: true },
      ],
    })
  })

  test('against another revision prints what changes and which items would reopen', async () => {
    const { status, output } = await runCommand(run, [
      ...PACK,
      '--inputs',
      revision('preliminary'),
      '--against',
      revision('final'),
    ])
    expect(status).toBe(0)
    const all = lines(output)
    expect(all.find(({ change }) => change === 'takeoffTrim')).toMatchObject({
      label: 'takeoff trim',
      from: 4.3,
      to: 3.1,
      spoken: true,
    })
    expect(all.flatMap(({ reopens }) => reopens ?? [])).toEqual([
      'loadFigures.zeroFuelWeight',
      'loadFigures.trim',
      'loadFigures.v1',
      'loadFigures.vr',
      'loadFigures.v2',
      'loadFigures.loadSheet',
      'beforeStart.fuel',
      'readyForTaxi.weight',
      'readyForTaxi.cg',
      'readyForTaxi.trim',
      'readyForTaxi.speeds',
    ])
  })

  test('takes the earlier status as the one before, whichever way round they are named', async () => {
    const one = await runCommand(run, [...PACK, '--inputs', revision('preliminary'), '--against', revision('final')])
    const other = await runCommand(run, [...PACK, '--inputs', revision('final'), '--against', revision('preliminary')])
    expect(other.output).toBe(one.output)
  })

  test('reopens nothing where only unrounded values move', async () => {
    const { output } = await runCommand(run, [...PACK, '--inputs', revision('final'), '--against', revision('amended')])
    const printed = lines(output)
    expect(printed.flatMap(({ reopens }) => reopens ?? [])).toEqual(['loadFigures.loadSheet'])
    // The new number of the sheet is another matter.
    const all = printed.filter(({ change, reopens }) => change !== 'loadSheetEdition' && reopens === undefined)
    expect(all.some(({ change, spoken }) => change === 'vr' && spoken === false)).toBe(true)
    expect(all.every(({ spoken }) => spoken === false)).toBe(true)
  })

  test.each([
    ['a negative load', 'aftHold: 930', 'aftHold: -930', /^\S+changed\.yaml:5:88: load aft hold -930 kg is negative/],
    [
      'a value outside its table',
      'elevation: 412',
      'elevation: -1500',
      /V one of the table: table V one: pressure altitude -1,383\.\d+ ft is outside its axis altitude: -1,000 to 7,000 ft\n/,
    ],
    [
      'overweight',
      'tripFuel: 2900',
      'tripFuel: 900',
      /landing weight over its limit by 872 kg \(29,182 kg, limit 28,310 kg\)\n/,
    ],
    [
      'a total that differs',
      'zeroFuelWeight: 24620',
      'zeroFuelWeight: 26420',
      /zero fuel weight: sources differ by more than 20 kg/,
    ],
  ])('with %s tells it on standard error and exits 1', async (_, from, to, error) => {
    const { status, errors } = await runCommand(run, [...PACK, '--inputs', changedInputs(from, to)])
    expect(status).toBe(1)
    expect(errors).toMatch(error)
  })

  test.each([
    ['a file that is not there', 'nowhere.yaml', 'no such file'],
    ['a folder', 'checklists', 'a folder, not a file'],
    ['a device without end', '/dev/zero', 'larger than 1200 kB, and not read'],
  ])('with %s says so', async (_, file, why) => {
    for (const files of [
      ['--inputs', file],
      ['--inputs', 'checklists/marram/inputs/final.yaml', '--against', file],
    ]) {
      const { status, errors } = await runCommand(run, [...PACK, ...files])
      expect([status, errors]).toEqual([1, `${file}: ${why}; name a file of inputs\n`])
    }
  })

  test.each([[[]], [['--pack', 'checklists/marram']], [['--wrong']]])('called as %j is wrong usage', async (args) => {
    const { status, errors } = await runCommand(run, args)
    expect(status).toBe(2)
    expect(errors).toBe('usage: figures --pack DIR --inputs FILE.yaml [--against FILE.yaml]\n')
  })
})
