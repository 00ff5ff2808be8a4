/** A log for tests: kept in memory, open to view, and made to refuse or to keep waiting when asked. */

import { createMemoryLog } from '../../src/adapters/log/memoryLog.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import type { RunArchive } from '../../src/ports.ts'

export interface FakeLog extends RunArchive {
  /** Everything stored, in order. */
  readonly events: readonly RunEvent[]
  /** From now on, or for so many events, nothing can be stored, for this reason. */
  refuse(message: string, times?: number): void
  /** There is room again. */
  accept(): void
  /** Whatever is to be stored waits until the answer is called. */
  hold(): () => void
}

export function createFakeLog(): FakeLog {
  const log = createMemoryLog()
  const events: RunEvent[] = []
  let refusal = { message: '', times: 0 }
  let held = Promise.resolve()
  return {
    ...log,
    events,
    async append(event) {
      await held
      if (refusal.times > 0) {
        refusal = { ...refusal, times: refusal.times - 1 }
        throw new Error(refusal.message)
      }
      await log.append(event)
      events.push(event)
    },
    refuse(message, times = Number.POSITIVE_INFINITY) {
      refusal = { message, times }
    },
    accept() {
      refusal = { message: '', times: 0 }
    },
    hold() {
      let release = () => {}
      held = new Promise((free) => {
        release = free
      })
      return release
    },
  }
}
