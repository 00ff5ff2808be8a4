/**
 * What was said in one breath may have become several events, or one that was judged only later: all of them are of one
 * sound, which lies under the number of the first.
 */

import type { RunEvent } from '../core/events.ts'

/** Events of what was spoken, by number, each with that of the first in its breath. */
export function firstOfBreath(events: readonly RunEvent[]): ReadonlyMap<number, number> {
  const firstAt = new Map<number, number>()
  const first = new Map<number, number>()
  for (const event of events) {
    if (!('evidence' in event) || event.evidence?.by !== 'voice') continue
    const { beganAt } = event.evidence
    if (beganAt === undefined) continue
    if (!firstAt.has(beganAt)) firstAt.set(beganAt, event.seq)
    first.set(event.seq, firstAt.get(beganAt) ?? event.seq)
  }
  return first
}
