/** A log that lives as long as the page: for where nothing can be stored, and for rehearsals without a file. */

import type { RunEvent } from '../../kernel/run/core/events.ts'
import type { RunLog, RunSummary } from '../../ports.ts'
import { newestFirst, newestUnfinished, outOfPlace, summarise } from './summary.ts'

export function createMemoryLog(): RunLog {
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
  }
}
