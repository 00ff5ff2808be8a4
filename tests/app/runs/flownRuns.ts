/** Runs of the demo pack for tests of keeping them: flown once in Node, and the same again under other ids and dates. */

import { createRunReader } from '../../../src/app/runs/runRead.ts'
import type { RunEvent } from '../../../src/kernel/run/core/events.ts'
import type { RunArchive, StoredRun } from '../../../src/ports.ts'
import { rig } from '../rig.ts'

/** With a miss, a value given and an end. */
export async function flownRun(): Promise<RunEvent[]> {
  const { hear, log, run } = await rig()
  for (const said of ['load figures list', 'two four three six zero', 'four point eight up', 'four point three up']) {
    await hear(said, { by: 'typed' })
  }
  await run.happen({ type: 'ended' })
  return [...log.events]
}

/** The same, as if it had been spoken. */
export async function spokenRun(): Promise<RunEvent[]> {
  const typed = await flownRun()
  return typed.map((event) =>
    'evidence' in event && event.evidence.by === 'typed'
      ? ({ ...event, evidence: { ...event.evidence, by: 'voice', beganAt: event.seq } } as RunEvent)
      : event,
  )
}

export function asRun(events: readonly RunEvent[], runId: string, day = 1): RunEvent[] {
  const wall = new Date(Date.UTC(2026, 0, day, 9)).toISOString()
  return events.map((event) => ({ ...event, runId, wall }))
}

export async function keptIn(log: RunArchive, ...runs: readonly RunEvent[][]): Promise<void> {
  const reader = createRunReader()
  for (const events of runs) {
    const summary = await reader.summaryOf(events)
    if (!summary) throw new Error('no run')
    await log.put({ summary, events })
  }
}

/** Everything that is kept, by run. */
export async function allIn(log: RunArchive): Promise<StoredRun[]> {
  const runs = await log.runs()
  return Promise.all(runs.map(async (summary) => ({ summary, events: await log.read(summary.runId) })))
}
