/**
 * Whatever is wrong in a pack, a sheet or a log: nothing is thrown, every problem is one line with its place, and nothing
 * of the language is changed by it. A short sample here; `FUZZ=3000 npx vitest run --project node tests/fuzz` draws more,
 * `FUZZ_FROM` others.
 */

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, afterEach, describe, expect, test, vi } from 'vitest'
import { run as debrief } from '../../src/cli/debrief.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import { compute } from '../../src/kernel/figures/compute.ts'
import type { Inputs } from '../../src/kernel/figures/model.ts'
import { vocabularyOf } from '../../src/kernel/hearing/vocabulary.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import type { Problem } from '../../src/kernel/problem.ts'
import { showProblem } from '../../src/kernel/problemLine.ts'
import { readInputs } from '../../src/packs/inputs.ts'
import { PACK_FILES, readPack } from '../../src/packs/read.ts'
import { runCommand } from '../cli/io.ts'
import { rehearsed } from '../rehearsed.ts'
import { mistaken, mistakenLog } from './mutations.ts'

const COUNT = Number(process.env.FUZZ ?? 60)
const FROM = Number(process.env.FUZZ_FROM ?? 1)
vi.setConfig({ testTimeout: 600_000 + COUNT * 2_000 })

const seeds = Array.from({ length: COUNT }, (_, index) => FROM + index)

async function demo(
  name: string,
): Promise<{ pack: Pack; texts: Readonly<Record<string, string>>; sheet: string; inputs: Inputs }> {
  const { pack, texts } = await readPackDir(`checklists/${name}`)
  const sheet = readFileSync(`checklists/${name}/inputs/preliminary.yaml`, 'utf8')
  const { inputs } = pack ? readInputs(sheet, 'preliminary.yaml', pack) : {}
  if (!pack || !inputs) throw new Error(`${name} cannot be read`)
  return { pack, texts, sheet, inputs }
}
const MARRAM = await demo('marram')
const PAIR = await demo('pair')
const demoOf = (seed: number) => (seed % 2 === 0 ? MARRAM : PAIR)

/** All that objects have without having been given it. */
const bornWith = () =>
  JSON.stringify([Object, Array, String, Number, Function].map((one) => Reflect.ownKeys(one.prototype).map(String)))
const BORN_WITH = bornWith()
afterEach(() => expect(bornWith()).toBe(BORN_WITH))

/** One line each, with a place, neither endless nor a mirror of what was handed in. */
function expectTold(problems: readonly Problem[], seed: number): void {
  expect(problems.length).toBeLessThanOrEqual(51)
  for (const problem of problems) {
    const line = showProblem(problem)
    expect(line, `seed ${seed}`).toMatch(/^[\w./]+:\d+:\d+: \S[^\n\r]*$/)
    expect(line.length, `seed ${seed}: ${line.slice(0, 200)}`).toBeLessThan(2_500)
    expect(line, `seed ${seed}`).not.toMatch(/\bundefined\b|\[object|is not a function|Cannot read/)
  }
}

describe('whatever is wrong', () => {
  test('in a pack is told, or it is a pack that works', () => {
    for (const seed of seeds) {
      const { texts, inputs } = demoOf(seed)
      const file = PACK_FILES[seed % PACK_FILES.length] ?? 'pack.yaml'
      const { pack, problems } = readPack({ ...texts, [file]: mistaken(texts[file] ?? '', seed) }, '')
      expectTold(problems, seed)
      expect(pack !== undefined || problems.length > 0, `seed ${seed}`).toBe(true)
      if (!pack) continue
      vocabularyOf(pack)
      compute(pack.figures, inputs)
    }
  })

  test('in a sheet is told, or it is a sheet that counts', () => {
    for (const seed of seeds) {
      const { pack, sheet, inputs } = demoOf(seed)
      const rows = Object.entries({ status: inputs.status, ...inputs.values, ...inputs.loads, ...inputs.situation })
      const csv = [
        'name,value,unit,source',
        ...rows.map(([name, value]) => `${name},${value}`),
        'blockFuel,6700,kg,loadSheet',
      ]
      const isCsv = seed % 4 < 2
      const text = mistaken(isCsv ? csv.join('\n') : sheet, seed)
      const read = readInputs(text, isCsv ? 'sheet.csv' : 'sheet.yaml', pack)
      expectTold(read.problems, seed)
      const set = read.inputs && compute(pack.figures, read.inputs)
      const values = Object.values(set?.figures ?? {}).flatMap(({ value, exact = 0 }) => [value ?? 0, exact])
      expect(
        values.filter((value) => typeof value === 'number' && !Number.isFinite(value)),
        `seed ${seed}`,
      ).toEqual([])
    }
  })

  describe('in a log', () => {
    const folder = mkdtempSync(join(tmpdir(), 'fuzz-'))
    const file = join(folder, 'log.jsonl')
    afterAll(() => rmSync(folder, { recursive: true }))

    test('it is told as far as it is whole, in words', async () => {
      const logs = await Promise.all([flown('departure.txt'), flown('talk.txt', 7)])
      for (const seed of seeds) {
        writeFileSync(file, mistakenLog(logs[seed % 2] ?? [], seed))
        const { status, output, errors } = await runCommand(debrief, [file])
        expect(output !== '', `seed ${seed}`).toBe(status === 0)
        expect(output, `seed ${seed}`).not.toMatch(/NaN|\bundefined\b|\[object/)
        expect(output.includes('\u001b'), `seed ${seed}`).toBe(false)
        expect(errors, `seed ${seed}`).toMatch(/^(.*log\.jsonl:\d+:1: \S.*\n)*$/)
        expect(errors, `seed ${seed}`).not.toMatch(/\n {4}at |is not a function/)
      }
    })
  })
})

const flown = (answers: string, voices?: number): Promise<unknown[]> =>
  rehearsed({
    ...{ pack: MARRAM.pack, sheet: 'checklists/marram/inputs/preliminary.yaml', file: `tests/cli/answers/${answers}` },
    ...(voices !== undefined && { voices }),
  })
