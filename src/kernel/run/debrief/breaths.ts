/**
 * What was said in one breath may have become several events, or one that was judged only later: all of them are of one
 * sound, which lies under the number of the first.
 */

import type { Evidence, RunEvent } from '../core/events.ts'

/** Events of what was spoken, by number, each with that of the first in its breath. */
export function firstOfBreath(events: readonly RunEvent[]): ReadonlyMap<number, number> {
  const firstAt = new Map<number, number>()
  const first = new Map<number, number>()
  for (const event of events) {
    const { by, beganAt } = saidIn(event) ?? {}
    if (by !== 'voice' || beganAt === undefined) continue
    if (!firstAt.has(beganAt)) firstAt.set(beganAt, event.seq)
    first.set(event.seq, firstAt.get(beganAt) ?? event.seq)
  }
  return first
}

/** What waits for a room to be asked is in no other event yet. */
const saidIn = (event: RunEvent): Evidence | undefined =>
  event.type === 'frozen' ? event.said : 'evidence' in event ? event.evidence : undefined
