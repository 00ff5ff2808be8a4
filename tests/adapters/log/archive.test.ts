/** Whole runs taken out of the archive and put in, and their lines kept up to date. */

import 'fake-indexeddb/auto'
import { beforeAll, describe, expect, test } from 'vitest'
import { createBrowserLog } from '../../../src/adapters/log/browserLog.ts'
import { createMemoryLog } from '../../../src/adapters/log/memoryLog.ts'
import type { RunEvent } from '../../../src/kernel/run/core/events.ts'
import { isAccountDue, type RunSummary } from '../../../src/kernel/run/core/summary.ts'
import type { RunArchive } from '../../../src/ports.ts'
import { asRun, flownRun, keptIn } from '../../app/runs/flownRuns.ts'

let flown: readonly RunEvent[]
beforeAll(async () => {
  flown = await flownRun()
})

let count = 0
const archives: readonly [string, () => Promise<RunArchive>][] = [
  ['in the browser', () => createBrowserLog(`archive test ${++count}`)],
  ['in memory', async () => createMemoryLog()],
]

const only = async (log: RunArchive): Promise<RunSummary> => {
  const [run] = await log.runs()
  if (!run) throw new Error('no run')
  return run
}

describe.each(archives)('runs kept %s', (_where, open) => {
  test('are counted as they are written', async () => {
    const log = await open()
    for (const event of flown) await log.append(event)
    const letters = flown.map((event) => `${JSON.stringify(event)}\n`).join('').length
    expect(await only(log)).toMatchObject({ events: flown.length, letters, ended: true, isOver: true })
    expect(isAccountDue(await only(log))).toBe(true)
  })

  test('come back whole after they were taken out', async () => {
    const log = await open()
    await keptIn(log, asRun(flown, 'a'), asRun(flown, 'b'))
    const taken = await log.take('a')
    expect(await log.read('a')).toEqual([])
    expect((await log.runs()).map(({ runId }) => runId)).toEqual(['b'])
    expect(await log.take('a')).toBeUndefined()
    if (taken) await log.put(taken)
    expect(await log.read('a')).toEqual(asRun(flown, 'a'))
    expect(await log.read('b')).toEqual(asRun(flown, 'b'))
  })

  test('keep what is there when more of them is put in', async () => {
    const log = await open()
    await keptIn(log, asRun(flown.slice(0, 3), 'a'))
    await keptIn(log, asRun(flown, 'a'))
    expect(await log.read('a')).toEqual(asRun(flown, 'a'))
  })

  test('keep no line that was made before they went on, and stay put away', async () => {
    const log = await open()
    for (const event of flown.slice(0, 4)) await log.append(event)
    const made = { ...(await only(log)), account: undefined }
    const account = { v: 1, events: 4, durationMs: 9, items: 1, closed: 0, lists: 1, completeLists: 0 }
    const summary = {
      ...made,
      account: { ...account, misses: 0, radioMisses: 0, briefingMisses: 0, startDeviations: 0, early: 0, letGo: 0 },
    }
    await log.putAway('run')
    await log.keepSummary(summary)
    expect(await only(log)).toMatchObject({ account: { durationMs: 9 }, ended: true })
    const next = flown[4]
    if (next) await log.append(next)
    await log.keepSummary({ ...summary, pack: 'another' })
    expect((await only(log)).pack).not.toBe('another')
    await log.keepSummary({ ...summary, runId: 'gone' })
    expect(await log.runs()).toHaveLength(1)
  })
})

test('a run that cannot be copied into the browser leaves nothing of itself', async () => {
  const log = await createBrowserLog(`archive test ${++count}`)
  const [first, ...rest] = asRun(flown, 'a')
  const bad = { ...first, extra: () => 1 }
  const summary = { runId: 'a', pack: 'p', startedAt: 0, ended: true }
  await expect(log.put({ summary, events: [first, bad, ...rest] })).rejects.toThrow(/cannot store the run/)
  expect(await log.read('a')).toEqual([])
  expect(await log.runs()).toEqual([])
})
