/** The account of a log that is cut, changed by hand, of another edition, or no log at all. */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { run } from '../../src/cli/debrief.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { TALK, TO_CLEARANCE } from '../app/demoAnswers.ts'
import { rig } from '../app/rig.ts'
import { rehearsed } from '../rehearsed.ts'
import { runCommand } from './io.ts'

const folder = mkdtempSync(join(tmpdir(), 'debrief-'))
const file = join(folder, 'log.jsonl')
afterAll(() => rmSync(folder, { recursive: true }))

let events: readonly RunEvent[]
beforeAll(async () => {
  const { pack } = await readPackDir('checklists/marram')
  if (!pack) throw new Error('the demo pack cannot be read')
  const sheet = 'checklists/marram/inputs/preliminary.yaml'
  events = await rehearsed({ pack, sheet, file: 'tests/cli/answers/departure.txt' })
})

const lines = (all: readonly unknown[]) => all.map((event) => `${JSON.stringify(event)}\n`).join('')

async function debriefed(text: string | Uint8Array, ...options: string[]) {
  writeFileSync(file, text)
  const { status, output, errors } = await runCommand(run, [file, ...options])
  return { status, output, errors: errors.replaceAll(file, 'LOG') }
}

/** The events with one of them changed. */
const changed = (index: number, change: object) =>
  events.map((event, at) => (at === index ? { ...event, ...change } : event))

describe('a whole log', () => {
  test('is told without a word about it', async () => {
    const { status, output, errors } = await debriefed(lines(events))
    expect([status, errors]).toEqual([0, ''])
    expect(output).toContain('All lists complete.')
  })
})

describe('a colleague on the radio', () => {
  test('is told fault by fault, caught and missed, with what was said and what was right', async () => {
    const {
      hear,
      run: flight,
      log,
    } = await rig({
      ...{ talk: TALK, settings: { readBacks: 'colleague', partner: { seed: 2, rate: 0.4 } } },
    })
    for (const text of [...TO_CLEARANCE, 'check that']) await hear(text, { by: 'typed' })
    await flight.happen({ type: 'ended' })
    const { status, output, errors } = await debriefed(lines(log.events))
    expect([status, errors]).toEqual([0, ''])
    expect(output).toContain('The pilot answered. The colleague read back to controllers. Otherseat was to err in 40 %')
    expect(output).toMatch(/missed, hard: Departure clearance: your colleague read back departure .+, right was .+\./)
    expect(output).toMatch(/caught, obvious: Contact ground: your colleague read back frequency .+ \("check that"\)/)
    expect(output).toMatch(/1 of \d+ faults caught/)
  })
})

describe('a log that is not whole is told as far as it is, and where it ends', () => {
  test('cut in the middle of a line', async () => {
    const { status, output, errors } = await debriefed(lines(events).slice(0, -20))
    expect(status).toBe(0)
    expect(output).toContain('All lists complete.')
    expect(errors).toBe(
      `LOG:${events.length}:1: the log is cut in the middle of a line; it is read to the last whole one\n`,
    )
  })

  test('cut in the middle of a character', async () => {
    const said = { ...events[5], type: 'overheard', evidence: { by: 'typed', text: 'é' } }
    const bytes = new TextEncoder().encode(lines([...events.slice(0, 5), said]))
    const { status, errors } = await debriefed(bytes.slice(0, bytes.lastIndexOf(0xc3) + 1))
    expect([status, errors]).toEqual([
      0,
      'LOG:6:1: the log is cut in the middle of a line; it is read to the last whole one\n',
    ])
  })

  test.each<[string, () => readonly unknown[], string]>([
    [
      'an event left out',
      () => events.filter((_, at) => at !== 4),
      'LOG:5:1: event 4: its number is 5; 4 would be right here',
    ],
    [
      'an event twice',
      () => events.toSpliced(5, 0, events[4] as RunEvent),
      'LOG:6:1: event 5: its number is 4; 5 would be right here',
    ],
    [
      'an event of another run',
      () => changed(7, { runId: 'other' }),
      'LOG:8:1: event 7: it is of another run, "other"',
    ],
    [
      'a later version',
      () => changed(7, { v: 99 }),
      'LOG:8:1: event 7: it has version 99, and this edition reads version 1: a later edition wrote it',
    ],
    [
      'an unknown type',
      () => changed(7, { type: 'danced' }),
      'LOG:8:1: event 7: "danced" is not a type of event that this edition knows',
    ],
    [
      'a type that every object has',
      () => changed(7, { type: 'toString' }),
      'LOG:8:1: event 7: "toString" is not a type of event that this edition knows',
    ],
    ['no time', () => changed(7, { t: undefined }), 'LOG:8:1: event 7: t is missing'],
    ['a time that is none', () => changed(7, { t: 'soon' }), 'LOG:8:1: event 7: t is "soon", not a number'],
    [
      'something after the end',
      () => [...events, { ...events.at(-1), seq: events.length }],
      `LOG:${'%end%'}:1: event ${'%at%'}: the run has ended before it`,
    ],
  ])('with %s', async (_, make, told) => {
    const { status, output, errors } = await debriefed(lines(make()))
    const right = told.replace('%end%', String(events.length + 1)).replace('%at%', String(events.length))
    expect(errors).toBe(`${right}; nothing from here on is told\n`)
    expect(status).toBe(0)
    expect(output).toMatch(/items closed/)
    expect(output).not.toMatch(/NaN|undefined/)
  })

  test('with a list that the pack does not have, behind blank lines', async () => {
    const at = events.findIndex(({ type }) => type === 'listCalled')
    const { status, output, errors } = await debriefed(lines(changed(at, { list: 'nowhere' })).replaceAll('\n', '\n\n'))
    expect(errors).toMatch(
      new RegExp(
        `^LOG:${2 * at + 1}:1: event ${at} \\(listCalled\\) cannot be replayed: .*; nothing from here on is told\\n$`,
      ),
    )
    expect(status).toBe(0)
    expect(output).not.toMatch(/NaN|undefined/)
  })
})

describe('what is no log of a run is refused in one line', () => {
  const started = (change: object) =>
    lines(changed(0, { pack: { ...(events[0] as { pack: object }).pack, ...change } }))

  test.each<[string, () => string, RegExp]>([
    ['nothing', () => '', /^LOG:1:1: no whole event; a log begins with runStarted\n$/],
    ['half an event', () => lines(events).slice(0, 100), /^LOG:1:1: no whole event; a log begins with runStarted\n$/],
    ['something else', () => 'hello\nthere\n', /^LOG:1:1: not JSON; one event a line would be right\n$/],
    ['a number', () => '1\n', /^LOG:1:1: event 0: 1 is no event\n$/],
    [
      'a log without its beginning',
      () => lines(events.slice(1)),
      /^LOG:1:1: event 0: its number is 1; 0 would be right here\n$/,
    ],
    [
      'another digest than that of its texts',
      () => started({ sha256: 'f'.repeat(64) }),
      /^LOG:1:1: event 0: the pack's texts have the SHA-256 [0-9a-f]{64}, and the log says "f{60}\.\.\." \(64 characters\)\n$/,
    ],
    [
      'texts changed by hand',
      () => started({ texts: { 'pack.yaml': 'id: other' } }),
      /^LOG:1:1: event 0: the pack's texts have the SHA-256 [0-9a-f]{64}, and/,
    ],
    ['no pack', () => lines(changed(0, { pack: undefined })), /^LOG:1:1: event 0: runStarted.pack is missing\n$/],
  ])('%s', async (_, make, told) => {
    const { status, output, errors } = await debriefed(make())
    expect([status, output]).toEqual([1, ''])
    expect(errors).toMatch(told)
  })

  test.each([
    ['a folder', () => folder, /: a folder, not a file; name a log of a run\n$/],
    ['a file that is not there', () => join(folder, 'none.jsonl'), /none\.jsonl: no such file; name a log of a run\n$/],
    [
      'a device without end',
      () => '/dev/zero',
      /^\/dev\/zero: larger than 64000 kB, and not read; name a log of a run\n$/,
    ],
  ])('%s', async (_, name, told) => {
    const { status, output, errors } = await runCommand(run, [name()])
    expect([status, output]).toEqual([1, ''])
    expect(errors).toMatch(told)
  })
})

test('what was said cannot change the account: it is told on its line', async () => {
  const at = events.findIndex(({ type }) => type === 'answered')
  const said = { by: 'typed', text: 'five\n\u001b[2Jup\u202e' }
  const { output } = await debriefed(lines(changed(at, { evidence: said })))
  expect(output).toContain('"five\\n\\u{1b}[2Jup\\u{202e}"')
})
