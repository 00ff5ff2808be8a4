/** From events to the line a run has in the list of runs. */

import type { RunEvent } from '../../kernel/run/core/events.ts'
import type { RunSummary } from '../../ports.ts'

/** The summary after one more event; undefined where a run does not begin with its start. */
export function summarise(before: RunSummary | undefined, event: RunEvent): RunSummary | undefined {
  if (event.type === 'runStarted') {
    const { id, name } = event.pack
    return { runId: event.runId, pack: name, packId: id, startedAt: Date.parse(event.wall), ended: false }
  }
  return before && event.type === 'ended' ? { ...before, ended: true } : before
}

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
