import { existsSync } from 'node:fs'
import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, join, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { run as debrief } from '../../src/cli/debrief.ts'
import { run as rehearse } from '../../src/cli/rehearse.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { FINAL_ANSWERS, LISTS, PRELIMINARY_ANSWERS } from '../audio/departure.ts'
import { cases } from '../cases.ts'
import { runCommand } from './io.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))
const PACK = join(root, 'checklists/marram')
const PRELIMINARY = join(PACK, 'inputs/preliminary.yaml')
const DEPARTURE = join(root, 'tests/cli/answers/departure.txt')

let dir: string
beforeAll(async () => {
  dir = await mkdtemp(join(tmpdir(), 'otherseat-rehearse-'))
})
afterAll(() => rm(dir, { recursive: true }))

async function fly(answers: string, inputs = PRELIMINARY, pack = PACK) {
  const file = join(dir, 'answers.txt')
  const log = join(dir, 'log.jsonl')
  await writeFile(file, answers.replaceAll('../../../checklists', resolve(root, 'checklists')))
  await rm(log, { force: true })
  const end = await runCommand(rehearse, ['--pack', pack, '--inputs', inputs, '--answers', file, '--log', log])
  const text = await readFile(log, 'utf8').catch(() => '')
  const events = text
    .split('\n')
    .filter((line) => line)
    .map((line): RunEvent => JSON.parse(line))
  return { ...end, log, events }
}

/** The departure by recordings, the refused one among them; where fewer cases are made up, only one in three is a recording and the others are typed. */
async function recorded(): Promise<string> {
  const spokenOf = cases(100) === 100 ? 1 : 3
  const texts = new Map([...PRELIMINARY_ANSWERS, ...FINAL_ANSWERS, ...LISTS].map(({ file, text }) => [file, text]))
  const folder = join(root, 'tests/cli/answers')
  const lines = (await readFile(join(folder, 'recorded.txt'), 'utf8')).split('\n')
  let spoken = 0
  return lines
    .map((line, index) => {
      const [, command, path = ''] = /^@(wav|figures) (.*)$/.exec(line) ?? []
      const text = command === 'wav' ? texts.get(basename(path, '.wav')) : undefined
      // What is refused behind its comment is always spoken.
      const isKept = lines[index - 1]?.startsWith('#')
      if (text !== undefined && !isKept && spoken++ % spokenOf !== 0) return text
      return command === undefined ? line : `@${command} ${resolve(folder, path)}`
    })
    .join('\n')
}

describe('rehearse', () => {
  it('says that there is no clearance to be given where the pack has none', async () => {
    const pack = join(dir, 'small')
    await cp(join(root, 'tests/packs/small'), pack, { recursive: true })
    const procedures = join(pack, 'procedures.yaml')
    await writeFile(procedures, (await readFile(procedures, 'utf8')).replace(/ +- \{line: .*\n/, ''))
    const { status, errors } = await fly('@cleared taxi\n', join(pack, 'inputs/training.yaml'), pack)
    expect(status).toBe(1)
    expect(errors).toContain('@cleared taxi: not known; this pack has none')
  })

  it('completes the demo departure from text answers, with final figures on the way', async () => {
    const { status, output, errors, events } = await fly(await readFile(DEPARTURE, 'utf8'))
    expect(errors).toBe('')
    expect(status).toBe(0)
    expect(output).toContain('Load figures list incomplete.')
    expect(output).toContain('All lists complete.')
    // The engine starts: the speed asked for, one that is low, a call that nobody can have seen yet.
    expect(output).toMatch(/fuel is on\notherseat: Speed\?\n/)
    expect(output).toContain('Fourteen is low. Fuel off, or recheck.')
    expect(output).toContain('No light up. Fuel off, or call it.')
    expect(output).toContain('Already? Confirm starter out.')
    expect(output).toContain('Left engine stable.')
    expect(events.map((event) => event.seq)).toEqual(events.map((_, index) => index))
    expect(events[0]).toMatchObject({ v: 1, type: 'runStarted', t: 0, pack: { id: 'marram', version: '1.0.0' } })
    expect(events.at(-1)?.type).toBe('ended')
  })

  it('completes the departure of the piston twin: one start with a late call, one that fails and is begun again, a magneto that stays live', async () => {
    const pack = join(root, 'checklists/pair')
    const answers = await readFile(join(root, 'tests/cli/answers/pair.txt'), 'utf8')
    const { status, output, errors, events } = await fly(answers, join(pack, 'inputs/final.yaml'), pack)
    expect(errors).toBe('')
    expect(status).toBe(0)
    expect(output).toContain('No oil pressure. Mixture cutoff, or call it.')
    expect(output).toContain('Eight two zero is out of range. Confirm?')
    expect(output).toMatch(
      /No firing\..*\n.*not firing\n.*Mixture cutoff\. Starter out\. Let the starter rest, fifty five seconds/,
    )
    expect(output).toContain('Not yet, let the starter rest, fifty seconds.')
    expect(output).toContain('All lists complete.')
    expect(events.filter(({ type }) => type === 'watchStopped')).toMatchObject([
      { watch: 'rightStart', abnormal: 'noFire' },
      { watch: 'rightPower', abnormal: 'noDrop' },
    ])
    // The drops of both magnetos may be within their limit and still too far apart.
    expect(output).toContain('Sixty is out of range. Confirm?')
    expect(output).toContain('I heard two thousand.')
  })

  it('ends with 1 where one value is wrong, and the log says which', async () => {
    const answers = (await readFile(DEPARTURE, 'utf8')).replace('\none two eight\n', '\none two niner\n')
    const { status, errors, events } = await fly(answers)
    expect(status).toBe(1)
    expect(errors).toMatch(/answers\.txt:\d+:1: the file ends while waiting for an answer/)
    const wrong = events.filter((event) => event.type === 'answered' && event.evidence.text === 'one two niner')
    expect(wrong).toMatchObject([{ item: 'loadFigures.v1', expected: { v1: 128 }, judgement: { verdict: 'negative' } }])
  })

  it('completes from recordings that go through the recogniser, and refuses the recording of a value that has changed', async () => {
    const answers = join(dir, 'recorded.txt')
    await writeFile(answers, await recorded())
    const log = join(dir, 'recorded.jsonl')
    const args = ['--pack', PACK, '--inputs', PRELIMINARY, '--answers', answers, '--log', log]
    const { status, errors } = await runCommand(rehearse, args)
    expect(errors).toBe('')
    expect(status).toBe(0)
    const events = (await readFile(log, 'utf8'))
      .trim()
      .split('\n')
      .map((line): RunEvent => JSON.parse(line))
    const refused = events.filter((event) => event.type === 'answered' && event.judgement.verdict === 'negative')
    expect(refused).toMatchObject([{ item: 'loadFigures.zeroFuelWeight', evidence: { by: 'voice' }, revision: 2 }])
  }, 600_000)

  it('lets time pass by the virtual clock: silence is prompted once', async () => {
    const { output } = await fly('load figures list\n@wait 9s\n@wait 2m\n')
    expect(output.match(/Zero fuel weight\?/g)).toHaveLength(2)
  })

  it.each([
    ['@wait soon', 'a time such as 31s'],
    ['@cleared taxi', 'push, start would be right'],
    ['@situation stand=hangar', 'push, own would be right'],
    ['@figures nowhere.yaml', 'there is no such file'],
    ['@wawe x', '@wait, @figures'],
    ['@constructor', '@wait, @figures'],
    ['@wait 999999999999m', 'at most 1440m, which is a day, would be right'],
    ['@wav nowhere.wav', 'a WAV file would be right'],
    ['@wav .', 'a WAV file would be right'],
    ['@wav answers.txt', 'not a WAV file'],
    ['@figures .', 'there is no such file'],
    ['@key nothing', 'Call load figures'],
  ])('says of %s where it is and what would be right', async (line, right) => {
    const { status, errors } = await fly(`# a comment\n${line}\n`)
    expect(status).toBe(1)
    expect(errors).toMatch(/answers\.txt:2:1: /)
    expect(errors).toContain(right)
  })

  it.skipIf(!existsSync('/dev/full'))('says in one line that its log cannot be stored', async () => {
    const file = join(dir, 'answers.txt')
    await writeFile(file, 'load figures list\n')
    const args = ['--pack', PACK, '--inputs', PRELIMINARY, '--answers', file]
    // Writing to this device fails as on a full disk.
    const { status, errors } = await runCommand(rehearse, [...args, '--log', '/dev/full'])
    expect(status).toBe(1)
    expect(errors).toMatch(/^The log \/dev\/full cannot be kept: ENOSPC[^\n]*\n$/)
  })

  it('leaves a file that is no log as it is', async () => {
    const [file, diary] = [join(dir, 'answers.txt'), join(dir, 'diary.txt')]
    await writeFile(file, 'load figures list\n')
    await writeFile(diary, 'dear diary')
    const args = ['--pack', PACK, '--inputs', PRELIMINARY, '--answers', file, '--log', diary]
    const { status, errors } = await runCommand(rehearse, args)
    expect(status).toBe(1)
    expect(errors).toMatch(
      /^\S+diary\.txt holds something else than a log and is left as it is; name a new file[^\n]*\n$/,
    )
    expect(await readFile(diary, 'utf8')).toBe('dear diary')
  })

  it('asks for its usage where an option lacks', async () => {
    expect(await runCommand(rehearse, ['--pack', PACK])).toMatchObject({ status: 2 })
  })
})

describe('debrief', () => {
  it('makes the account of a log alone: what was said, refused, and opened again', async () => {
    const { log } = await fly(await readFile(DEPARTURE, 'utf8'))
    const { status, output } = await runCommand(debrief, [log])
    expect(status).toBe(0)
    expect(output).toContain('All lists complete.')
    expect(output).toMatch(/starter out: after .* \(called after .*, sooner than it can be seen\)/)
    expect(output).toMatch(/\(out of limits: 14 after [0-9.]+ s/)
    expect(output).toMatch(/\(out of limits: 64 after [0-9.]+ s\)/)
    expect(output).toMatch(
      /revision 2: final load sheet; open again: zero fuel weight, takeoff trim, V one, rotate speed, V two, load sheet/,
    )
    expect(output).toMatch(
      /"four point three up" negative \(value\), on revision 2; it fits earlier figures, revision 1/,
    )
  })

  it('is data with --json', async () => {
    const { log } = await fly('load figures list\nfive\n')
    const { output } = await runCommand(debrief, [log, '--json'])
    expect(JSON.parse(output)).toMatchObject({ complete: false, totals: { closed: 0 } })
  })
})
