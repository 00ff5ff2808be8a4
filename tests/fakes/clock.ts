/** A clock for tests: time moves when it is told to, and timers due on the way fire in their order. */

import type { Clock } from '../../src/ports.ts'

export interface FakeClock extends Clock {
  advance(ms: number): void
  /** As a machine asleep: time goes by, and what was due meanwhile fires in its order at waking. */
  sleep(ms: number): void
  /** Timers that have not fired and were not undone. */
  readonly pending: () => number
}

export function createFakeClock(start = Date.UTC(2000, 0, 1)): FakeClock {
  let now = start
  const timers = new Set<{ readonly at: number; readonly call: () => void }>()
  const due = (end: number) => [...timers].filter((timer) => timer.at <= end).sort((a, b) => a.at - b.at)[0]
  return {
    now: () => now,
    after(ms, call) {
      const timer = { at: now + ms, call }
      timers.add(timer)
      return () => void timers.delete(timer)
    },
    advance(ms) {
      const end = now + ms
      for (let timer = due(end); timer; timer = due(end)) {
        timers.delete(timer)
        now = Math.max(now, timer.at)
        timer.call()
      }
      now = end
    },
    sleep(ms) {
      now += ms
      for (let timer = due(now); timer; timer = due(now)) {
        timers.delete(timer)
        timer.call()
      }
    },
    pending: () => timers.size,
  }
}
