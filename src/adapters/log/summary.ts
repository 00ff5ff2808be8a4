/** What the logs have in common: the order of runs, and which event may follow. */

import type { RunEvent } from '../../kernel/run/core/events.ts'
import type { RunSummary } from '../../kernel/run/core/summary.ts'

export function newestFirst(runs: readonly RunSummary[]): RunSummary[] {
  return [...runs].sort((a, b) => b.startedAt - a.startedAt)
}

/** The newest run that has no end. */
export function newestUnfinished(runs: readonly RunSummary[]): string | undefined {
  return newestFirst(runs).find((run) => !run.ended)?.runId
}

/** Says why an event may not follow what is stored, if so: a log with a gap or a fork is not the truth. */
export function outOfPlace(stored: number, event: RunEvent): string | undefined {
  if (event.seq === stored) return undefined
  return event.seq < stored
    ? `Event ${event.seq} of this run is stored already: another tab writes the same run.`
    : `The log of this run ends at event ${stored - 1}, so event ${event.seq} cannot follow: what was before it is gone.`
}
