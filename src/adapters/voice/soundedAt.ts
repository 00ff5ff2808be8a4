/** When something is heard that a sound output has played. */

import type { Clock } from '../../ports.ts'

/** No loudspeaker lags that far: a time beyond this is not believed. One WebKit reports such times, ever later. */
const LATEST_MS = 1_000

/** The clock time at which what the output had at `contextS` of its own time comes out of the loudspeaker; it had it already. */
export function soundedAt(context: Pick<AudioContext, 'getOutputTimestamp'>, contextS: number, clock: Clock): number {
  const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp()
  const now = clock.now()
  // Zero where a browser does not say: then it was a moment ago.
  if (!contextTime || !performanceTime) return now
  const at = now - (performance.now() - performanceTime) - (contextTime - contextS) * 1000
  return at > now + LATEST_MS ? now : at
}
