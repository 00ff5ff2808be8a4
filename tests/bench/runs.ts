/**
 * Benchmark of the list of runs: how the time to open it grows with the runs, in a database in memory that holds 200
 * answers of each. The list is made of lines kept beside the logs, so it may grow as the runs do, and no faster.
 */

import 'fake-indexeddb/auto'
import { createBrowserLog } from '../../src/adapters/log/browserLog.ts'
import { filtered, flownWords, missWords, NO_FILTER, packsFlown, reachWords } from '../../src/app/runs/runsView.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { ACCOUNT_VERSION, type RunSummary } from '../../src/kernel/run/core/summary.ts'
import type { RunArchive } from '../../src/ports.ts'

const COUNTS = [250, 500, 1000]
const ITEMS = 200
const TIMES = 15
const SETTINGS = { phraseology: 'plain', coachAfter: 0 } as const

export async function measure(): Promise<Record<string, number>> {
  const log = await createBrowserLog('bench of runs')
  const times: number[] = []
  let kept = 0
  for (const count of COUNTS) {
    for (; kept < count; kept++) await log.put({ summary: summaryOf(kept), events: eventsOf(kept) })
    times.push(await opening(log))
  }
  const [small = 1, middle = 1, large = 1] = times
  return {
    'runs.list500To250': middle / small,
    'runs.list1000To500': large / middle,
    'runs.list1000To250': large / small,
  }
}

/** Milliseconds: the median. */
async function opening(log: RunArchive): Promise<number> {
  const taken: number[] = []
  for (let time = 0; time < TIMES; time++) {
    const begin = performance.now()
    const runs = filtered(await log.runs(), { ...NO_FILTER, from: '2020-01-01', end: 'over' })
    packsFlown(runs)
    for (const run of runs.slice(0, 100)) [flownWords(run), reachWords(run), missWords(run)].join()
    taken.push(performance.now() - begin)
  }
  return taken.toSorted((one, other) => one - other)[Math.floor(TIMES / 2)] ?? 0
}

export function summaryOf(run: number): RunSummary {
  const account = { v: ACCOUNT_VERSION, events: ITEMS, durationMs: 3_600_000, items: ITEMS, closed: ITEMS - (run % 9) }
  return {
    ...{ runId: `run ${run}`, pack: `Pack ${run % 7}`, packId: `pack-${run % 7}`, ended: true, isOver: true },
    startedAt: Date.UTC(2026, 0, 1) + run * 3_600_000,
    flown: { stations: true, settings: SETTINGS, dealt: run },
    ...{ events: ITEMS, letters: 300_000 },
    account: {
      ...account,
      lists: 9,
      completeLists: 9,
      misses: run % 5,
      radioMisses: 0,
      briefingMisses: 0,
      startDeviations: 0,
      early: 0,
      letGo: 0,
    },
  }
}

function eventsOf(run: number): RunEvent[] {
  return Array.from({ length: ITEMS }, (_, seq) => ({
    ...{ v: 1, seq, runId: `run ${run}`, t: seq * 1_000, wall: '2026-01-01T00:00:00.000Z' },
    ...{ type: 'overheard', evidence: { by: 'typed', text: 'two four three six zero' } },
  }))
}
