import 'fake-indexeddb/auto'
import { mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { createBrowserLog } from '../../../src/adapters/log/browserLog.ts'
import { createFileLog } from '../../../src/adapters/log/fileLog.ts'
import { createMemoryLog } from '../../../src/adapters/log/memoryLog.ts'
import type { EventBody, RunEvent } from '../../../src/kernel/run/core/events.ts'
import type { RunArchive, RunLog } from '../../../src/ports.ts'

const START: EventBody = {
  type: 'runStarted',
  pack: { id: 'p', version: '1', sha256: '00', name: 'Invented twin', texts: { 'pack.yaml': 'name: Invented twin' } },
  situation: {},
  settings: { phraseology: 'plain', coachAfter: 0 },
  startedAt: Date.UTC(2000, 0, 1),
}

function event(runId: string, seq: number, body: EventBody, minute = 0): RunEvent {
  const wall = new Date(Date.UTC(2000, 0, 1, 0, minute, seq)).toISOString()
  return { v: 1, seq, runId, t: seq * 1_000, wall, ...body }
}
const overheard = (runId: string, seq: number) =>
  event(runId, seq, { type: 'overheard', evidence: { by: 'voice', text: `words ${seq}` } })

let count = 0
const archives: readonly [string, () => Promise<RunArchive>][] = [
  ['in the browser', () => createBrowserLog(`test ${++count}`)],
  ['in memory', async () => createMemoryLog()],
]
const logs: readonly [string, () => Promise<RunLog>][] = [
  ...archives,
  ['in a file', async () => createFileLog(join(await mkdtemp(join(tmpdir(), 'otherseat-')), 'run.jsonl'))],
]

describe.each(logs)('a log kept %s', (_where, open) => {
  let log: RunLog
  beforeEach(async () => {
    log = await open()
  })

  test('gives back the events of a run in their order, and none of another', async () => {
    const mine = [event('a', 0, START), ...Array.from({ length: 12 }, (_, index) => overheard('a', index + 1))]
    await log.append(event('b', 0, START))
    for (const one of mine) await log.append(one)
    expect(await log.read('a')).toEqual(mine)
    expect(await log.read('c')).toEqual([])
  })

  test('refuses a second event of the same number, and keeps the first', async () => {
    await log.append(event('a', 0, START))
    await log.append(overheard('a', 1))
    await expect(log.append(event('a', 1, { type: 'ended' }))).rejects.toThrow(/stored already: another tab/)
    expect(await log.read('a')).toEqual([event('a', 0, START), overheard('a', 1)])
  })

  test('refuses an event whose forerunner is gone', async () => {
    await log.append(event('a', 0, START))
    await expect(log.append(overheard('a', 2))).rejects.toThrow(/ends at event 0/)
    expect(await log.read('a')).toHaveLength(1)
  })

  test('is not changed through what it was given or gave', async () => {
    const first = event('a', 0, START)
    await log.append(first)
    const [read] = await log.read('a')
    Object.assign(read ?? {}, { runId: 'b' })
    expect(await log.read('a')).toEqual([first])
  })
})

describe.each(archives)('the runs kept %s', (_where, open) => {
  test('offers the newest run without an end', async () => {
    const log = await open()
    expect(await log.unfinished()).toBeUndefined()
    await log.append(event('old', 0, START, 1))
    await log.append(event('new', 0, START, 2))
    await log.append(event('newest', 0, START, 3))
    expect(await log.unfinished()).toBe('newest')
    await log.append(event('newest', 1, { type: 'ended' }, 4))
    expect(await log.unfinished()).toBe('new')
    expect((await log.runs()).map(({ runId, pack, ended }) => [runId, pack, ended])).toEqual([
      ['newest', 'Invented twin', true],
      ['new', 'Invented twin', false],
      ['old', 'Invented twin', false],
    ])
  })

  test('do not offer one that was put away, and keep its events', async () => {
    const log = await open()
    await log.append(event('old', 0, START, 1))
    await log.append(event('new', 0, START, 2))
    await log.putAway('new')
    expect(await log.unfinished()).toBe('old')
    expect(await log.read('new')).toEqual([event('new', 0, START, 2)])
    await log.putAway('nobody knows this one')
    expect((await log.runs()).map(({ runId }) => runId)).toEqual(['new', 'old'])
  })
})

test('a log in a file is one event a line', async () => {
  const file = join(await mkdtemp(join(tmpdir(), 'otherseat-')), 'run.jsonl')
  const log = await createFileLog(file)
  await log.append(event('a', 0, START))
  await log.append(overheard('a', 1))
  const lines = (await readFile(file, 'utf8')).split('\n')
  expect(lines.pop()).toBe('')
  expect(lines.map((line) => JSON.parse(line).seq)).toEqual([0, 1])
})

describe('a file that is there already', () => {
  const fileWith = async (text: string) => {
    const file = join(await mkdtemp(join(tmpdir(), 'otherseat-')), 'run.jsonl')
    await writeFile(file, text)
    return file
  }

  test('and holds an earlier log is begun anew', async () => {
    const file = await fileWith(`${JSON.stringify(event('a', 0, START))}\n`)
    await (await createFileLog(file)).append(event('b', 0, START))
    expect(await readFile(file, 'utf8')).toBe(`${JSON.stringify(event('b', 0, START))}\n`)
  })

  test.each(['dear diary', '{"name":"package"}', '\n', '{"v":1,"seq":7}'])(
    'and holds %j is left as it is',
    async (text) => {
      const file = await fileWith(text)
      await expect(createFileLog(file)).rejects.toThrow(`${file} holds something else than a log and is left as it is`)
      expect(await readFile(file, 'utf8')).toBe(text)
    },
  )

  test('and is empty is written', async () => {
    const file = await fileWith('')
    await (await createFileLog(file)).append(event('a', 0, START))
    expect(await readFile(file, 'utf8')).not.toBe('')
  })

  test('and is a folder is refused with its name', async () => {
    await expect(createFileLog(tmpdir())).rejects.toThrow(`The log ${tmpdir()} cannot be kept`)
  })
})

test('a log in a folder that is not there is refused with its name', async () => {
  await expect(createFileLog('/no/such/folder/run.jsonl')).rejects.toThrow(
    /log \/no\/such\/folder\/run\.jsonl cannot be kept/,
  )
})

test('a log in the browser goes on after the page was left', async () => {
  const name = `test ${++count}`
  await (await createBrowserLog(name)).append(event('a', 0, START))
  const again = await createBrowserLog(name)
  await again.append(overheard('a', 1))
  expect(await again.read('a')).toHaveLength(2)
})

describe('where the browser stores nothing', () => {
  afterEach(() => vi.restoreAllMocks())

  const refusal = (name: string) => () => {
    throw new DOMException('not here', name)
  }

  test('a database that cannot be opened is said to be so', async () => {
    vi.spyOn(indexedDB, 'open').mockImplementation(refusal('SecurityError'))
    await expect(createBrowserLog(`test ${++count}`)).rejects.toThrow(/does not let this page store the log.*not here/)
  })

  test('a database that opens and cannot be written is found before the run', async () => {
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(refusal('NotAllowedError'))
    await expect(createBrowserLog(`test ${++count}`)).rejects.toThrow(/does not let this page store the log/)
  })

  test('an event for which there is no room is not stored, and the log stays whole', async () => {
    const log = await createBrowserLog(`test ${++count}`)
    await log.append(event('a', 0, START))
    vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(refusal('QuotaExceededError'))
    await expect(log.append(overheard('a', 1))).rejects.toThrow(/no room left/)
    vi.restoreAllMocks()
    expect(await log.read('a')).toHaveLength(1)
    await log.append(overheard('a', 1))
    expect(await log.read('a')).toHaveLength(2)
  })
})
