/**
 * A run that was shown to a room, without the time for which it was frozen: nothing was said, heard or timed in it, so no
 * answer took longer for it, and no line of time is as long.
 */

import type { RunEvent } from '../core/events.ts'
import { evidenceAt } from '../core/evidenceTime.ts'
import type { Moment } from './tally.ts'

/** Ms from the start of the run. */
interface Freeze {
  readonly from: number
  readonly to: number
}

/** Where the run was frozen, until it went on, or the log ends. */
export function freezesIn(moments: readonly Moment[]): Freeze[] {
  const freezes: Freeze[] = []
  for (const { event, before, after } of moments) {
    const wasSince = before.frozen?.since
    if (wasSince !== undefined && after.frozen?.since !== wasSince) freezes.push({ from: wasSince, to: event.t })
  }
  const last = moments.at(-1)
  if (last?.after.frozen) freezes.push({ from: last.after.frozen.since, to: last.event.t })
  return freezes.filter(({ from, to }) => to > from)
}

/** The same events, each as much sooner as the run had been frozen by then. */
export function withoutFreezes(events: readonly RunEvent[], freezes: readonly Freeze[]): RunEvent[] {
  const frozenBy = (t: number) => freezes.reduce((sum, { from, to }) => sum + Math.max(0, Math.min(t, to) - from), 0)
  const sooner = (t: number) => t - frozenBy(t)
  const [first] = events
  const startedAt = first?.type === 'runStarted' ? first.startedAt : 0
  const soonerAloud = (t: number) => startedAt + sooner(t - startedAt)
  return events.map((event) => ({
    ...event,
    t: sooner(event.t),
    // Onset of the words of a start.
    ...('at' in event && { at: sooner(event.at) }),
    ...('evidence' in event && event.evidence && { evidence: evidenceAt(event.evidence, soonerAloud) }),
  }))
}
