/** Times of speech moved: where a log is told, or begun with, at other times than its own. */

import type { Evidence } from './events.ts'

/** `moved`: one clock time to another, ms since 1970. */
export function evidenceAt(evidence: Evidence, moved: (t: number) => number): Evidence {
  const { beganAt, endedAt, saidUntil } = evidence
  return {
    ...evidence,
    ...(beganAt !== undefined && { beganAt: moved(beganAt) }),
    ...(endedAt !== undefined && { endedAt: moved(endedAt) }),
    ...(saidUntil !== undefined && { saidUntil: moved(saidUntil) }),
  }
}
