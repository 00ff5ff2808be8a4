/** A log that lives as long as the page: for where nothing can be stored, and for rehearsals without a file. */

import type { RunEvent } from '../../kernel/run/core/events.ts'
import { type RunSummary, summarise } from '../../kernel/run/core/summary.ts'
import type { RunArchive } from '../../ports.ts'
import { newestFirst, newestUnfinished, outOfPlace } from './summary.ts'

export function createMemoryLog(): RunArchive {
  const events = new Map<string, RunEvent[]>()
  const runs = new Map<string, RunSummary>()
  return {
    async append(event) {
      const before = events.get(event.runId) ?? []
      const wrong = outOfPlace(before.length, event)
      if (wrong) throw new Error(wrong)
      events.set(event.runId, [...before, structuredClone(event)])
      const summary = summarise(runs.get(event.runId), event)
      if (summary) runs.set(event.runId, summary)
    },
    read: async (runId) => structuredClone(events.get(runId) ?? []),
    unfinished: async () => newestUnfinished([...runs.values()]),
    runs: async () => newestFirst([...runs.values()]),
    async putAway(runId) {
      const run = runs.get(runId)
      if (run) runs.set(runId, { ...run, ended: true })
    },
    async keepSummary(summary) {
      const there = runs.get(summary.runId)
      if (!there || events.get(summary.runId)?.length !== summary.events) return
      runs.set(summary.runId, { ...summary, ended: there.ended || summary.ended })
    },
    async take(runId) {
      const summary = runs.get(runId)
      const taken = events.get(runId) ?? []
      events.delete(runId)
      runs.delete(runId)
      return summary && { summary, events: taken }
    },
    async put(run) {
      const { runId } = run.summary
      const there = events.get(runId) ?? []
      events.set(runId, [...there, ...structuredClone(run.events.slice(there.length) as RunEvent[])])
      runs.set(runId, run.summary)
    },
  }
}
