/** Sounds out with their runs and back in: to the byte, each beside its run, and what is cut, damaged or hostile told in one line. */

import 'fake-indexeddb/auto'
import { zipSync } from 'fflate'
import { beforeAll, describe, expect, test } from 'vitest'
import { createMemoryLog } from '../../../src/adapters/log/memoryLog.ts'
import { createSoundShelf } from '../../../src/adapters/soundShelf.ts'
import { createKeptSounds } from '../../../src/app/runs/keptSounds.ts'
import { linesOf, type SavedRuns, zippedRun, zippedRuns } from '../../../src/app/runs/runFiles.ts'
import { importRuns } from '../../../src/app/runs/runImport.ts'
import { createRunReader } from '../../../src/app/runs/runRead.ts'
import { wavOf } from '../../../src/app/sound/wav.ts'
import { createAppStore } from '../../../src/app/store.ts'
import type { RunEvent } from '../../../src/kernel/run/core/events.ts'
import { filesInZip } from '../../../src/packs/files/zip.ts'
import type { RunArchive, RunSounds, SoundShelf } from '../../../src/ports.ts'
import { createFakeCache } from '../../fakes/cache.ts'
import { createFakeSoundShelf } from '../../fakes/soundShelf.ts'
import { asRun, keptIn, spokenRun } from './flownRuns.ts'

let flown: readonly RunEvent[]
/** Numbers of what was said. */
let said: readonly number[]
beforeAll(async () => {
  flown = await spokenRun()
  said = flown.flatMap((event) => ('evidence' in event && event.evidence.by === 'voice' ? [event.seq] : []))
})

const reader = createRunReader()
const NOW = Date.UTC(2026, 5, 1, 12)
const bytesOf = (content: string | Uint8Array) =>
  typeof content === 'string' ? new TextEncoder().encode(content) : content

/** A sound for each thing said, no two alike. */
const soundsOf = (seed: number): RunSounds =>
  new Map(said.map((seq) => [seq, Int16Array.from({ length: 900 + seq }, (_, at) => (at * seed * 37 + seq) % 30_000)]))

const runs = new Map<string, number>([
  ['a', 1],
  ['b', 2],
])

async function home(shelf: SoundShelf = createFakeSoundShelf()) {
  const log = createMemoryLog()
  for (const [runId, seed] of runs) {
    await keptIn(log, asRun(flown, runId, seed))
    await shelf.put(runId, soundsOf(seed))
  }
  return { log, shelf }
}

const empty = (shelf: SoundShelf = createFakeSoundShelf()) => ({ log: createMemoryLog(), shelf })

type Place = { readonly log: RunArchive; readonly shelf: SoundShelf }

async function archiveOf({ log, shelf }: Place): Promise<SavedRuns> {
  const { all } = createKeptSounds(createAppStore(), shelf)
  return zippedRuns({ log, soundsOf: all, stopsOf: async () => undefined, tell() {} }, await log.runs(), NOW)
}

async function savedOf({ log, shelf }: Place, runId: string): Promise<Uint8Array> {
  const events = await log.read(runId)
  const summary = await reader.summaryOf(events)
  const sounds = await createKeptSounds(createAppStore(), shelf).all(runId)
  if (!summary || !sounds) throw new Error('no run')
  return bytesOf(zippedRun(events, summary, NOW, { sounds }).content)
}

function importInto({ log, shelf }: Place, files: Readonly<Record<string, string | Uint8Array>>) {
  const offered = Object.entries(files).map(([path, content]) => {
    const bytes = bytesOf(content)
    return { path, size: bytes.length, bytes: async () => bytes }
  })
  return importRuns(
    { log, sounds: shelf, stops: createFakeCache(), lock: { isHeld: async () => false }, reader, tell() {} },
    offered,
  )
}

async function kept({ shelf }: Place, runId: string): Promise<RunSounds> {
  const sounds = new Map<number, Int16Array>()
  for (const seq of await shelf.numbers(runId)) sounds.set(seq, (await shelf.read(runId, seq)) ?? new Int16Array())
  return sounds
}

async function unzipped(zip: Uint8Array): Promise<Record<string, Uint8Array>> {
  const files = filesInZip(zip)
  if ('wrong' in files) throw new Error(files.wrong)
  const all: Record<string, Uint8Array> = {}
  for (const file of files) {
    const bytes = await file.bytes()
    if ('wrong' in bytes) throw new Error(bytes.wrong)
    all[file.path] = bytes
  }
  return all
}

describe('sounds', () => {
  test('of a run lie in its zip under the numbers of their events, and come back to another browser', async () => {
    const zip = await savedOf(await home(), 'a')
    const files = await unzipped(zip)
    const paths = Object.keys(files).filter((path) => path.endsWith('.wav'))
    expect(paths).toEqual(
      said.map((seq) => `otherseat-2026-01-01-0900-marram/sound/${String(seq).padStart(5, '0')}.wav`),
    )
    expect(files[paths[0] ?? '']).toEqual(wavOf(soundsOf(1).get(said[0] ?? 0) ?? new Int16Array()))
    const there = empty()
    expect(await importInto(there, { 'run.zip': zip })).toEqual({
      told: ['1 run came in.', `${said.length} sounds came in.`],
      wrong: [],
    })
    expect(await kept(there, 'a')).toEqual(soundsOf(1))
  })

  test('saved, wiped, imported and saved again are the same files, to the byte', async () => {
    const here = await home(createSoundShelf('here'))
    const [run, all] = [await savedOf(here, 'a'), (await archiveOf(here)).content]
    const second = empty(createSoundShelf('second'))
    await importInto(second, { 'run.zip': run })
    expect(await savedOf(second, 'a')).toEqual(run)
    await here.shelf.deleteAll()
    const third = empty(here.shelf)
    await importInto(third, { 'all.zip': all })
    expect((await archiveOf(third)).content).toEqual(all)
    expect(await kept(third, 'b')).toEqual(soundsOf(2))
  })

  test('of all runs lie behind all logs, each run’s in a folder with the name of its log', async () => {
    const { content, silent } = await archiveOf(await home())
    expect(silent).toBe(0)
    const paths = Object.keys(await unzipped(bytesOf(content))).map((path) => path.replace(/^[^/]*\//, ''))
    const logs = ['0001-2026-01-02-0900-marram', '0002-2026-01-01-0900-marram']
    expect(paths.slice(1, 3)).toEqual(logs.map((log) => `${log}.jsonl`))
    expect(paths.slice(3)).toEqual(
      logs.flatMap((log) => said.map((seq) => `${log}/sound/${String(seq).padStart(5, '0')}.wav`)),
    )
  })

  test('leave a run without any as it was: no folder, and nothing told', async () => {
    const log = createMemoryLog()
    await keptIn(log, asRun(flown, 'a'))
    const zip = await savedOf({ log, shelf: createFakeSoundShelf() }, 'a')
    expect(Object.keys(await unzipped(zip)).some((path) => path.includes('sound'))).toBe(false)
    expect(await importInto(empty(), { 'run.zip': zip })).toEqual({ told: ['1 run came in.'], wrong: [] })
  })

  test('join a run that is here, and replace nothing', async () => {
    const there = empty()
    await keptIn(there.log, asRun(flown, 'a', 1))
    const mine = Int16Array.of(7, 7, 7)
    await there.shelf.put('a', new Map([[said[1] ?? 0, mine]]))
    const { told } = await importInto(there, { 'run.zip': await savedOf(await home(), 'a') })
    expect(told).toEqual(['1 run was here already.', `${said.length - 1} sounds came in.`])
    expect(await kept(there, 'a')).toEqual(new Map([...soundsOf(1), [said[1] ?? 0, mine]]))
    expect(await importInto(there, { 'run.zip': await savedOf(await home(), 'a') })).toEqual({
      told: ['1 run was here already.'],
      wrong: [],
    })
  })

  test('of another run under an id that is here go with the one that is kept beside it', async () => {
    const there = empty()
    await keptIn(there.log, asRun(flown, 'a', 9))
    await importInto(there, { 'run.zip': await savedOf(await home(), 'a') })
    const beside = (await there.log.runs()).find(({ runId }) => runId !== 'a')?.runId ?? ''
    expect(await kept(there, beside)).toEqual(soundsOf(1))
    expect(await kept(there, 'a')).toEqual(new Map())
  })

  test('that cannot be read leave the archive with all logs, and say of how many runs', async () => {
    const here = await home()
    const read = here.shelf.numbers
    const shelf = {
      ...here.shelf,
      numbers: async (runId: string) => {
        if (runId === 'a') throw new Error('broken')
        return read(runId)
      },
    }
    const saved = await archiveOf({ ...here, shelf })
    expect(saved.silent).toBe(1)
    const there = empty()
    expect((await importInto(there, { 'all.zip': saved.content })).told[0]).toBe('2 runs came in.')
    expect([(await kept(there, 'a')).size, (await kept(there, 'b')).size]).toEqual([0, said.length])
  })

  test('for which an archive has no room are left out whole, run by run', async () => {
    const log = createMemoryLog()
    await keptIn(log, asRun(flown, 'a', 1), asRun(flown, 'b', 2))
    const [small, large] = [soundsOf(1), { size: 1, values: () => [{ byteLength: 600_000_000 }] } as unknown]
    const of = async (runId: string) => (runId === 'b' ? (large as RunSounds) : small)
    const saved = await zippedRuns(
      { log, soundsOf: of, stopsOf: async () => undefined, tell() {} },
      await log.runs(),
      NOW,
    )
    expect(saved.silent).toBe(1)
    expect(Object.keys(await unzipped(bytesOf(saved.content))).filter((path) => path.endsWith('.wav'))).toHaveLength(
      small.size,
    )
  })
})

/** Files of a zip by path, and the path of its first sound. */
type Change = (files: Record<string, Uint8Array>, path: string) => void

/** Has this in place of the first sound. */
const put =
  (make: (there: Uint8Array) => Uint8Array): Change =>
  (files, path) => {
    files[path] = make(files[path] ?? new Uint8Array())
  }

describe('a sound', () => {
  /** The zip of run a as files, with something done to one sound. */
  async function imported(change: Change) {
    const files = await unzipped(await savedOf(await home(), 'a'))
    const path = Object.keys(files).find((one) => one.endsWith('.wav')) ?? ''
    change(files, path)
    const there = empty()
    const { told, wrong } = await importInto(there, { 'run.zip': zipSync(files) })
    return { told, wrong, sounds: await kept(there, 'a') }
  }
  const without = (seq: number | undefined) => new Map([...soundsOf(1)].filter(([one]) => one !== seq))

  test.each<readonly [string, Change]>([
    ['cut', put((wav) => wav.subarray(0, -100))],
    ['empty', put(() => new Uint8Array())],
    ['of another form', (files, path) => void files[path]?.set([0x44, 0xac], 24)],
  ])('that is %s is left out by itself', async (_, change) => {
    const { told, wrong, sounds } = await imported(change)
    expect(told).toEqual(['1 run came in.', `${said.length - 1} sounds came in.`])
    expect(wrong).toEqual([
      `The sound of "log.jsonl" is not whole, 1 of ${said.length} are left out: it is cut or damaged, or no WAV of Otherseat.`,
    ])
    expect(sounds).toEqual(without(said[0]))
  })

  test('that belongs to nothing that was said is left out', async () => {
    const { wrong, sounds } = await imported((files, path) => {
      for (const name of ['00000.wav', '99999.wav', '999999999.wav']) {
        files[path.replace(/\d+\.wav$/, name)] = files[path] ?? new Uint8Array()
      }
    })
    expect(wrong).toEqual([
      `The sound of "log.jsonl" is not whole, 3 of ${said.length + 3} are left out: nothing was said at its number.`,
    ])
    expect(sounds).toEqual(soundsOf(1))
  })

  test('that is huge is not unpacked', async () => {
    const { wrong, sounds } = await imported(put(() => new Uint8Array(5_000_000)))
    expect(wrong).toEqual([expect.stringContaining('it is too large: at most 1 MB are read.')])
    expect(sounds).toEqual(without(said[0]))
  })

  test('with a path trick is told, and the rest is read', async () => {
    const { told, wrong, sounds } = await imported((files, path) => {
      files[`../../${path}`] = files[path] ?? new Uint8Array()
      delete files[path]
    })
    expect(told[0]).toBe('1 run came in.')
    expect(wrong).toEqual([expect.stringMatching(/leads out of its folder/)])
    expect(sounds).toEqual(without(said[0]))
  })

  test('without its run is nothing', async () => {
    const there = empty()
    const zip = zipSync({ 'run/sound/00003.wav': wavOf(Int16Array.of(1)) })
    expect(await importInto(there, { 'run.zip': zip })).toEqual({
      told: [],
      wrong: ['"run.zip": There is no log of a run in it.'],
    })
    expect(await there.shelf.size()).toEqual({ bytes: 0, runs: 0 })
  })

  test('damaged in the zip itself is left out by itself', async () => {
    const zip = await savedOf(await home(), 'a')
    // In what is packed of the first sound, behind its name.
    const name = new TextEncoder().encode('.wav')
    const at = zip.findIndex((_, from) => name.every((byte, index) => zip[from + index] === byte))
    zip[at + 30] = (zip[at + 30] ?? 0) ^ 0xff
    const there = empty()
    const { told, wrong } = await importInto(there, { 'run.zip': zip })
    expect(told).toEqual(['1 run came in.', `${said.length - 1} sounds came in.`])
    expect(wrong).toHaveLength(1)
    expect(await kept(there, 'a')).toEqual(without(said[0]))
  })

  test('that cannot be kept leaves the run here, and says why', async () => {
    const there = { log: createMemoryLog(), shelf: createFakeSoundShelf() }
    there.shelf.refuse('The disk is full.')
    expect(await importInto(there, { 'run.zip': await savedOf(await home(), 'a') })).toEqual({
      told: ['1 run came in.'],
      wrong: ['The sound of "log.jsonl" could not be kept: The disk is full.'],
    })
  })
})

test('a zip cut anywhere keeps the log first, then every sound before the cut', async () => {
  const zip = await savedOf(await home(), 'a')
  let most = 0
  for (let cut = 1; cut <= 30; cut++) {
    const there = empty()
    const { wrong } = await importInto(there, { 'run.zip': zip.subarray(0, Math.floor((zip.length * cut) / 31)) })
    expect(wrong[0]).toMatch(/^"run.zip": The zip is cut short/)
    const sounds = await kept(there, 'a')
    if (sounds.size > 0)
      expect(await there.log.read('a')).toEqual(
        JSON.parse(
          `[${linesOf(asRun(flown, 'a', 1))
            .trim()
            .replaceAll('\n', ',')}]`,
        ),
      )
    for (const [seq, samples] of sounds) expect(samples).toEqual(soundsOf(1).get(seq))
    expect(sounds.size).toBeGreaterThanOrEqual(most)
    most = sounds.size
  }
  expect(most).toBeGreaterThan(0)
})
