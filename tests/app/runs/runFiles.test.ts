/** Runs out as files and back in: nothing lost, nothing doubled, and what is hostile or cut told in one line. */

import 'fake-indexeddb/auto'
import { zipSync } from 'fflate'
import { beforeAll, describe, expect, test } from 'vitest'
import { createBrowserLog } from '../../../src/adapters/log/browserLog.ts'
import { createMemoryLog } from '../../../src/adapters/log/memoryLog.ts'
import { csvOfRun, linesOf, zippedRun, zippedRuns } from '../../../src/app/runs/runFiles.ts'
import { type Imported, importRuns } from '../../../src/app/runs/runImport.ts'
import { createRunReader } from '../../../src/app/runs/runRead.ts'
import { debriefLines } from '../../../src/cli/debriefText.ts'
import type { RunEvent } from '../../../src/kernel/run/core/events.ts'
import { readEvents } from '../../../src/kernel/run/core/readLog.ts'
import { debriefOf } from '../../../src/kernel/run/debrief/debrief.ts'
import { packSha256 } from '../../../src/packs/digest.ts'
import { filesInZip } from '../../../src/packs/files/zip.ts'
import type { RunArchive, SoundShelf, TextCache } from '../../../src/ports.ts'
import { createFakeCache } from '../../fakes/cache.ts'
import { createFakeSoundShelf } from '../../fakes/soundShelf.ts'
import { allIn, asRun, flownRun, keptIn } from './flownRuns.ts'

let flown: readonly RunEvent[]
beforeAll(async () => {
  flown = await flownRun()
})

const reader = createRunReader()
const NOW = Date.UTC(2026, 5, 1, 12)
const bytesOf = (content: string | Uint8Array) =>
  typeof content === 'string' ? new TextEncoder().encode(content) : content

function importInto(
  log: RunArchive,
  files: Readonly<Record<string, string | Uint8Array>>,
  isHeld = false,
  sounds: Pick<SoundShelf, 'put' | 'numbers'> = createFakeSoundShelf(),
  stops: Pick<TextCache, 'get' | 'put'> = createFakeCache(),
): Promise<Imported> {
  const offered = Object.entries(files).map(([path, content]) => {
    const bytes = bytesOf(content)
    return { path, size: bytes.length, bytes: async () => bytes }
  })
  return importRuns({ log, sounds, stops, lock: { isHeld: async () => isHeld }, reader, tell() {} }, offered)
}

async function archiveOf(log: RunArchive, stopsOf: TextCache['get'] = async () => undefined): Promise<Uint8Array> {
  const soundsOf = async () => new Map()
  return bytesOf((await zippedRuns({ log, soundsOf, stopsOf, tell() {} }, await log.runs(), NOW)).content)
}

async function debriefIn(log: RunArchive, runId: string): Promise<string> {
  const run = await reader.read(await log.read(runId))
  if ('why' in run) throw new Error(run.why)
  return debriefLines(debriefOf(run.pack, run.events)).join('\n')
}

const eventsOf = async (log: RunArchive) => (await allIn(log)).map(({ events }) => events)

describe('an archive', () => {
  test('brings all runs to an empty browser, to the letter, with the same debriefs', async () => {
    const [here, there] = [createMemoryLog(), await createBrowserLog('archive')]
    await keptIn(here, asRun(flown, 'a', 1), asRun(flown.slice(0, 5), 'b', 2), asRun(flown, 'c', 3))
    expect(await importInto(there, { 'all.zip': await archiveOf(here) })).toEqual({
      told: ['3 runs came in.'],
      wrong: [],
    })
    expect(JSON.stringify(await eventsOf(there))).toBe(JSON.stringify(await eventsOf(here)))
    for (const id of ['a', 'b', 'c']) expect(await debriefIn(there, id)).toBe(await debriefIn(here, id))
    const [c, b] = await there.runs()
    expect({ c, b }).toMatchObject({ c: { isOver: true }, b: { ended: true } })
    expect(b).not.toHaveProperty('isOver')
    expect(await there.unfinished()).toBeUndefined()
  })

  test('brought in again changes nothing', async () => {
    const log = createMemoryLog()
    await keptIn(log, asRun(flown, 'a'), asRun(flown.slice(0, 5), 'b'))
    const before = await allIn(log)
    expect(await importInto(log, { 'all.zip': await archiveOf(log) })).toEqual({
      told: ['2 runs were here already.'],
      wrong: [],
    })
    expect(await allIn(log)).toEqual(before)
  })

  test('of a run that went on elsewhere brings what follows, and of a shorter one nothing', async () => {
    const [here, there] = [createMemoryLog(), createMemoryLog()]
    await keptIn(here, asRun(flown.slice(0, 4), 'a'))
    await keptIn(there, asRun(flown, 'a'))
    expect(await importInto(here, { 'all.zip': await archiveOf(there) })).toMatchObject({
      told: ['1 run goes further now than it did here.'],
    })
    expect(await eventsOf(here)).toEqual(await eventsOf(there))
    expect((await allIn(here))[0]?.summary).toMatchObject({ isOver: true, events: flown.length })
    expect(await importInto(here, { 'a.jsonl': linesOf(asRun(flown.slice(0, 3), 'a')) })).toMatchObject({
      told: ['1 run was here already.'],
    })
  })

  test('does not go on with a run that is on in some tab', async () => {
    const log = createMemoryLog()
    await keptIn(log, asRun(flown.slice(0, 4), 'a'))
    const { told, wrong } = await importInto(log, { 'a.jsonl': linesOf(asRun(flown, 'a')) }, true)
    expect({ told, wrong }).toEqual({
      told: [],
      wrong: ['"a.jsonl" has more of a run that is on now: end that run, then import the file again.'],
    })
    expect(await log.read('a')).toHaveLength(4)
  })

  test('with another run under an id that is here keeps both, and twice brought in does not double it', async () => {
    const log = createMemoryLog()
    const mine = asRun(flown, 'a')
    const other = mine.map((event, at) => (at === 3 ? { ...event, t: event.t + 1 } : event))
    await keptIn(log, mine)
    for (const told of ['1 run came in.', '1 run was here already.']) {
      expect((await importInto(log, { 'a.jsonl': linesOf(other) })).told).toEqual([told])
    }
    expect(await log.read('a')).toEqual(mine)
    const beside = (await log.runs()).find(({ runId }) => runId !== 'a')?.runId ?? ''
    expect(beside).toMatch(/^a~[0-9a-f]{8}$/)
    expect(await log.read(beside)).toEqual(other.map((event) => ({ ...event, runId: beside })))
    expect(await log.runs()).toHaveLength(2)
  })

  test('tells that a run differs from the one here', async () => {
    const log = createMemoryLog()
    await keptIn(log, asRun(flown, 'a', 1))
    expect((await importInto(log, { 'a.jsonl': linesOf(asRun(flown, 'a', 2)) })).wrong).toEqual([
      '"a.jsonl" differs at event 0 from the run that is here under its id; it is kept beside it, with another id.',
    ])
  })

  test('cut anywhere is told in one line, and every run before the cut is kept whole', async () => {
    const here = createMemoryLog()
    await keptIn(here, ...Array.from({ length: 4 }, (_, day) => asRun(flown, `run ${day}`, day + 1)))
    const zip = await archiveOf(here)
    const whole = new Map((await allIn(here)).map(({ summary, events }) => [summary.runId, events]))
    for (let cut = 1; cut <= 50; cut++) {
      const length = Math.floor((zip.length * cut) / 51)
      const log = createMemoryLog()
      const { wrong } = await importInto(log, { 'all.zip': zip.subarray(0, length) })
      expect(wrong[0]).toMatch(/^"all.zip": The zip is cut short/)
      expect(wrong.length).toBeLessThanOrEqual(3)
      const kept = await allIn(log)
      // Three lie before the fourth, which is cut for as long as it is not whole.
      expect(kept.length).toBeGreaterThanOrEqual(Math.floor((length - 600) / (zip.length / 4)))
      for (const [at, { summary, events }] of kept.toReversed().entries()) {
        const all = whole.get(summary.runId) ?? []
        expect(events).toEqual(all.slice(0, at === kept.length - 1 ? events.length : undefined).slice(0, events.length))
      }
    }
  })
})

describe('a run as one file', () => {
  test('holds the notice, the log and the texts of its pack, and opens where the pack is not known', async () => {
    const events = asRun(flown, 'a')
    const summary = await reader.summaryOf(events)
    const saved = summary && zippedRun(events, summary, NOW)
    expect(saved?.name).toBe('otherseat-2026-01-01-0900-marram.zip')
    const files = filesInZip(bytesOf(saved?.content ?? ''))
    if ('wrong' in files) throw new Error(files.wrong)
    const text = async (name: string) => {
      const bytes = await files.find(({ path }) => path.endsWith(`/${name}`))?.bytes()
      return bytes && !('wrong' in bytes) ? new TextDecoder().decode(bytes) : undefined
    }
    expect(await text('README.txt')).toMatch(/^For training and simulation only\. Not for use in flight/)
    expect(await text('log.jsonl')).toBe(linesOf(events))
    const [first] = events
    const texts = first?.type === 'runStarted' ? first.pack.texts : {}
    for (const [name, content] of Object.entries(texts)) expect(await text(`pack/${name}`)).toBe(content)
    const log = createMemoryLog()
    expect((await importInto(log, { 'run.zip': bytesOf(saved?.content ?? '') })).told).toEqual(['1 run came in.'])
    expect(await debriefIn(log, 'a')).toContain('takeoff trim')
  })

  test('of a log that names its texts like other places writes none of them there', async () => {
    const [first, ...rest] = asRun(flown, 'a')
    if (first?.type !== 'runStarted') throw new Error('no start')
    const events = [{ ...first, pack: { ...first.pack, texts: { '../../evil.yaml': 'x', 'pack.yaml': 'y' } } }, ...rest]
    const summary = await reader.summaryOf(events)
    const files = summary && filesInZip(bytesOf(zippedRun(events, summary, NOW).content))
    if (!files || 'wrong' in files) throw new Error('no zip')
    expect(files.map(({ path }) => path.replace(/^[^/]*\//, ''))).toEqual(['README.txt', 'log.jsonl', 'pack/pack.yaml'])
  })
})

describe('where a run stops when it is shown', () => {
  const STOPS = [
    { seq: 3, words: 'Look' },
    { seq: 99_999, words: 'behind its end' },
  ]
  const stopsIn = async (kept: TextCache, runId: string) => JSON.parse((await kept.get(runId)) ?? 'null')

  test('goes out with it and comes in with it, and a person keeps their own', async () => {
    const log = createMemoryLog()
    for (const event of [...asRun(flown, 'a'), ...asRun(flown, 'b')]) await log.append(event)
    const archive = await archiveOf(log, async (runId) => (runId === 'a' ? JSON.stringify(STOPS) : undefined))
    const [fresh, kept] = [createFakeCache(), createFakeCache()]
    const came = await importInto(createMemoryLog(), { 'all.zip': archive }, false, undefined, fresh)
    expect(came).toEqual({ told: ['2 runs came in.'], wrong: [] })
    expect([await stopsIn(fresh, 'a'), await stopsIn(fresh, 'b')]).toEqual([[STOPS[0]], null])
    await kept.put(new Map([['a', '[]']]))
    await importInto(createMemoryLog(), { 'all.zip': archive }, false, undefined, kept)
    expect(await stopsIn(kept, 'a')).toEqual([])
    const summary = await reader.summaryOf(flown)
    const one = summary && zippedRun(asRun(flown, 'a'), summary, NOW, { stops: JSON.stringify(STOPS) })
    const alone = createFakeCache()
    await importInto(createMemoryLog(), { 'run.zip': bytesOf(one?.content ?? '') }, false, undefined, alone)
    expect(await stopsIn(alone, 'a')).toEqual([STOPS[0]])
  })

  test.each(['', '{}', '[1]', '[{"seq":"3","words":""}]', '[{"seq":3}]', '\xff', ' '.repeat(300_000)])(
    'is told of in one line where it is none: %#',
    async (content) => {
      const summary = await reader.summaryOf(flown)
      const run = summary && zippedRun(asRun(flown, 'a'), summary, NOW, { stops: content })
      const kept = createFakeCache()
      const came = await importInto(
        createMemoryLog(),
        { 'run.zip': bytesOf(run?.content ?? '') },
        false,
        undefined,
        kept,
      )
      expect(came).toEqual({
        told: ['1 run came in.'],
        wrong: ['Where "log.jsonl" stops when it is shown is left out: its stops.json is no list of stops.'],
      })
      expect(kept.texts.size).toBe(0)
    },
  )
})

test('a run as CSV has one row for each answer, with its verdict and its wait', async () => {
  const run = await reader.read(flown)
  const summary = await reader.summaryOf(flown)
  if ('why' in run || !summary) throw new Error('no run')
  const { content } = csvOfRun(run.pack, run.events, summary)
  const [head, ...rows] = String(content)
    .replace(/^\uFEFF/, '')
    .split('\r\n')
  expect(head).toBe('"time s","list","item","heard","verdict","wait s"')
  expect(rows.pop()).toBe('')
  expect(rows.map((row) => row.split(',').slice(1, 5).join())).toEqual([
    '"load figures","zero fuel weight","two four three six zero","correct"',
    '"load figures","takeoff trim","four point eight up","negative"',
    '"load figures","takeoff trim","four point three up","correct"',
  ])
  for (const row of rows) expect(row).toMatch(/^\d+(\.\d)?,.*,-?\d+(\.\d)?$/)
})

describe('a log', () => {
  test('cut in the middle of a line is read up to its last whole one', async () => {
    const text = linesOf(asRun(flown, 'a'))
    const ends = [...text.matchAll(/\n/g)].map(({ index }) => index + 1)
    for (let cut = 1; cut <= 50; cut++) {
      const length = Math.floor((text.length * cut) / 51)
      const lines = ends.filter((end) => end <= length + 1).length
      const log = createMemoryLog()
      const { wrong } = await importInto(log, { 'run.jsonl': text.slice(0, length) })
      const kept = readEvents(await log.read('a')).events
      expect(kept).toHaveLength(lines)
      const isAtEnd = ends.includes(length) || ends.includes(length + 1)
      if (lines === 0)
        expect(wrong).toEqual([
          expect.stringMatching(/^"run.jsonl" is no run of Otherseat: choose the .zip or the .jsonl that was saved \(/),
        ])
      else if (!isAtEnd) {
        expect(wrong).toEqual([`"run.jsonl" is cut; it is read up to its last whole line, event ${lines - 1}.`])
      }
    }
  })

  test('that is cut is told so where its run is here already', async () => {
    const log = createMemoryLog()
    await keptIn(log, asRun(flown, 'a'))
    const { told, wrong } = await importInto(log, { 'run.jsonl': linesOf(asRun(flown, 'a')).slice(0, -5) })
    expect(told).toEqual(['1 run was here already.'])
    expect(wrong).toEqual([expect.stringMatching(/^"run.jsonl" is cut; it is read up to its last whole line/)])
  })

  test('with an event that is wrong is kept up to there, and told', async () => {
    const lines = linesOf(asRun(flown, 'a')).split('\n')
    lines[4] = '{"v":1,"seq":4,"type":"answered"}'
    const log = createMemoryLog()
    expect((await importInto(log, { 'run.jsonl': lines.join('\n') })).wrong).toEqual([
      '"run.jsonl" is read up to line 5: event 4: runId is missing; what follows is left out.',
    ])
    expect(await log.read('a')).toHaveLength(4)
  })
})

describe('hostile files', () => {
  const SIGNED = async (texts: Readonly<Record<string, string>>) => {
    const [first, ...rest] = asRun(flown, 'a')
    if (first?.type !== 'runStarted') throw new Error('no start')
    return [{ ...first, pack: { ...first.pack, texts, sha256: await packSha256(texts) } }, ...rest]
  }
  const log = () => createBrowserLog(`hostile ${Math.random()}`)

  test('with path tricks are left out by name, and the rest is read', async () => {
    const good = bytesOf(linesOf(asRun(flown, 'a')))
    const names = ['../../a.jsonl', '/etc/a.jsonl', 'C:\\a.jsonl', 'x/./a.jsonl', 'x//a.jsonl']
    const zip = zipSync({ ...Object.fromEntries(names.map((name) => [name, good])), 'runs/b.jsonl': good })
    const { told, wrong } = await importInto(await log(), { 'all.zip': zip })
    expect(told).toEqual(['1 run came in.'])
    expect(wrong).toHaveLength(names.length)
  })

  test('that say they are huge, or unpack to more than they say, are not unpacked', async () => {
    const zip = zipSync({ 'a.jsonl': bytesOf(linesOf(asRun(flown, 'a'))) })
    const size = (bytes: number) => {
      const other = zip.slice()
      const view = new DataView(other.buffer)
      const directory = view.getUint32(other.length - 6, true)
      view.setUint32(22, bytes, true)
      view.setUint32(directory + 24, bytes, true)
      return other
    }
    expect((await importInto(await log(), { 'all.zip': size(3_000_000_000) })).wrong).toEqual([
      '"a.jsonl" is too large for a log: at most 16 MB are read.',
    ])
    expect((await importInto(await log(), { 'all.zip': size(1_000) })).wrong).toEqual([
      '"a.jsonl" cannot be read: "a.jsonl" in the zip unpacks to more than the zip says; it was not read.',
    ])
  })

  test('with __proto__ anywhere change nothing of the language', async () => {
    const events = asRun(flown, 'a')
    const text = linesOf(events)
      .replaceAll('"load figures list"', '"__proto__"')
      .replaceAll('"values":{', '"values":{"__proto__":{"polluted":1},')
      .replaceAll('"situation":{', '"situation":{"__proto__":"polluted",')
      .replaceAll('"evidence":{', '"__proto__":{"polluted":1},"evidence":{')
    await importInto(await log(), { 'run.jsonl': text, 'id.jsonl': linesOf(asRun(flown, '__proto__')) })
    const items = linesOf(events).replaceAll('"item":"loadFigures.zeroFuelWeight"', '"item":"__proto__"')
    const archive = await log()
    const { wrong } = await importInto(archive, { 'run.jsonl': items })
    expect(wrong).toEqual([
      expect.stringMatching(/^"run.jsonl" is kept, and not told to its end: event \d+ \(answered\)/),
    ])
    expect(({} as Record<string, unknown>).polluted).toBeUndefined()
  })

  test('with aliases that unfold without end in the pack are told, and not unfolded', async () => {
    const bomb = [
      'a: &a [x, x]',
      ...'bcdefghijklmnopqrstuvwxyz'.split('').map((name, at) => {
        const before = String.fromCharCode('a'.charCodeAt(0) + at)
        return `${name}: &${name} [*${before}, *${before}]`
      }),
    ].join('\n')
    const events = await SIGNED({ 'pack.yaml': bomb, 'figures.yaml': bomb, 'procedures.yaml': bomb })
    const { wrong } = await importInto(await log(), { 'run.jsonl': linesOf(events) })
    expect(wrong).toEqual([
      expect.stringMatching(/^"run.jsonl" is kept, and not told to its end: its pack cannot be read: pack.yaml:1:\d+/),
    ])
  })

  test('whose pack was changed are refused', async () => {
    const text = linesOf(asRun(flown, 'a')).replace('version: ', 'version:  ')
    expect((await importInto(await log(), { 'run.jsonl': text })).wrong).toEqual([
      '"run.jsonl" was changed: its pack is not the one that its SHA-256 stands for.',
    ])
  })

  test('of other kinds are told in one line each', async () => {
    const files = {
      'nothing.zip': '',
      'text.zip': 'dear diary',
      'photo.jsonl': new Uint8Array([0xff, 0xd8, 0xff, 0xe0]),
      'empty.jsonl': '',
      'list.jsonl': '[1,2,3]',
      'deep.jsonl': `${'['.repeat(50_000)}${']'.repeat(50_000)}`,
      'pack.zip': zipSync({ 'wren/pack.yaml': bytesOf('id: wren') }),
      'long.jsonl': linesOf(asRun(flown, 'x'.repeat(5_000))),
    }
    const { told, wrong } = await importInto(await log(), files)
    expect(told).toEqual([])
    expect(wrong).toHaveLength(Object.keys(files).length)
    for (const line of wrong) expect(line).toMatch(/^"[^"]+"[^\n]+\.$/)
  })
})
