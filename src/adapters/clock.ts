/** Real time. */

import type { Clock } from '../ports.ts'

export const systemClock: Clock = {
  now: () => Date.now(),
  after(ms, call) {
    const timer = setTimeout(call, ms)
    return () => clearTimeout(timer)
  },
}
