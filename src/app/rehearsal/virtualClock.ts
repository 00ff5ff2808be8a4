/** A clock that moves only when it is told to; timers due on the way are called in their order. For rehearsals and tests. */

import type { Clock } from '../../ports.ts'

export interface VirtualClock extends Clock {
  /** Lets time pass, and calls each timer at its time. */
  advance(ms: number): void
  /** The same, and what a timer caused has settled before the next. */
  pass(ms: number, settled: () => Promise<unknown>): Promise<void>
  /** Time goes by and no timer is called, as while something speaks, or the machine sleeps: `advance(0)` wakes it. */
  skip(ms: number): void
  /** Timers that have not been called and were not undone. */
  readonly pending: () => number
}

export function createVirtualClock(start = Date.UTC(2000, 0, 1)): VirtualClock {
  let now = start
  const timers = new Set<{ readonly at: number; readonly call: () => void }>()

  /** Calls the first timer due by then; says whether there was one. */
  function callNext(end: number): boolean {
    const [due] = [...timers].filter((timer) => timer.at <= end).sort((a, b) => a.at - b.at)
    if (!due) return false
    timers.delete(due)
    now = Math.max(now, due.at)
    due.call()
    return true
  }

  return {
    now: () => now,
    after(ms, call) {
      const timer = { at: now + ms, call }
      timers.add(timer)
      return () => void timers.delete(timer)
    },
    advance(ms) {
      const end = now + ms
      while (callNext(end));
      now = Math.max(now, end)
    },
    async pass(ms, settled) {
      const end = now + ms
      while (callNext(end)) await settled()
      now = Math.max(now, end)
    },
    skip(ms) {
      now += ms
    },
    pending: () => timers.size,
  }
}
