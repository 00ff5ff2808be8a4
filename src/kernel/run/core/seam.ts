/** Where in a log that begins with what did not happen in it, its own run begins. */

import type { RunEvent } from './events.ts'
import type { RunState } from './state.ts'

/** The number of the last event that does not count; -1 where all do. The log begins with `runStarted`. */
export function seamOf(events: readonly RunEvent[]): number {
  const [first] = events
  const again = first?.type === 'runStarted' ? (first.again?.seq ?? -1) : -1
  const begun = events.find(({ type }) => type === 'begunAt')?.seq ?? -1
  return Math.max(again, begun)
}

/** The first event that counts behind those that do not. */
export function isSeam({ again, begunAt }: RunState, { seq }: RunEvent): boolean {
  return seq === (again?.seq ?? begunAt?.seq ?? -2) + 1
}
