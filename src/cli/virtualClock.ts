/** A clock that moves only when it is told to; timers due on the way are called in their order. */

import type { Clock } from '../ports.ts'

export interface VirtualClock extends Clock {
  /** Moves on without calling timers: time that speech takes. */
  advance(ms: number): void
  /** Lets time pass, timer by timer; what a timer caused has settled before the next. */
  pass(ms: number, settled: () => Promise<void>): Promise<void>
}

export function virtualClock(start: number): VirtualClock {
  let now = start
  let timers: { at: number; call: () => void }[] = []
  return {
    now: () => now,
    after(ms, call) {
      const timer = { at: now + ms, call }
      timers.push(timer)
      return () => {
        timers = timers.filter((other) => other !== timer)
      }
    },
    advance(ms) {
      now += ms
    },
    async pass(ms, settled) {
      const end = now + ms
      for (;;) {
        const due = timers.filter((timer) => timer.at <= end).sort((a, b) => a.at - b.at)[0]
        if (!due) break
        timers = timers.filter((other) => other !== due)
        now = Math.max(now, due.at)
        due.call()
        await settled()
      }
      now = end
    },
  }
}
