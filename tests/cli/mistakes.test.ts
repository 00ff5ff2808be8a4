import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { run } from '../../src/cli/check.ts'
import { MISTAKES } from '../packs/mistakes.ts'
import { runCommand } from './io.ts'

const SMALL = 'tests/packs/small'
const texts = Object.fromEntries(
  readdirSync(SMALL, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.yaml'))
    .map((file) => [file, readFileSync(join(SMALL, file), 'utf8')]),
)
const HOLDS = '18 figures, 2 lists with 13 items, 1 timed start, 1 exchange, no briefings, no papers; '

let dir: string
beforeAll(() => {
  dir = join(mkdtempSync(join(tmpdir(), 'pack-')), 'small')
  mkdirSync(join(dir, 'inputs'), { recursive: true })
  for (const [file, text] of Object.entries(texts)) writeFileSync(join(dir, file), text)
})
afterAll(() => rmSync(dirname(dir), { recursive: true }))

test('the pack is sound, and check says what it holds and what the recorded voice lacks', async () => {
  expect(await runCommand(run, [dir])).toEqual({
    status: 0,
    output: `${dir}: ${HOLDS}7 words are not in the recorded voice\n  not recorded: bus, fen, heat, probe, volt, voltage, volts\n`,
    errors: '',
  })
})

/** Of advice the exit status is 0, and what the pack holds stands behind it. */
describe.each(Object.entries(MISTAKES))('%s: one mistake, one message', (_, mistakes) => {
  test.each(mistakes)('%s', async (_, file, from, to, told) => {
    const before = texts[file] ?? ''
    expect(before.split(from), 'stands there once').toHaveLength(2)
    writeFileSync(
      join(dir, file),
      before.replace(from, () => to),
    )
    const { status, output, errors } = await runCommand(run, [dir])
    writeFileSync(join(dir, file), before)
    const isAdvice = told.startsWith('warning: ')
    const advice = output.split('\n').filter((line) => line.startsWith('warning: '))
    expect(
      [...errors.split('\n').filter((line) => line !== ''), ...advice].map((line) => line.replace(`${dir}/`, '')),
    ).toEqual([told])
    expect([status, output.includes(`${dir}: `)]).toEqual(isAdvice ? [0, true] : [1, false])
  })
})
