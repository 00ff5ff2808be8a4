/** A log for tests: kept in memory, open to view, and made to refuse when asked. */

import { createMemoryLog } from '../../src/adapters/log/memoryLog.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import type { RunArchive } from '../../src/ports.ts'

export interface FakeLog extends RunArchive {
  /** Everything stored, in order. */
  readonly events: readonly RunEvent[]
  /** From now on nothing can be stored, for this reason. */
  refuse(message: string): void
}

export function createFakeLog(): FakeLog {
  const log = createMemoryLog()
  const events: RunEvent[] = []
  let refusal: string | undefined
  return {
    ...log,
    events,
    async append(event) {
      if (refusal !== undefined) throw new Error(refusal)
      await log.append(event)
      events.push(event)
    },
    refuse(message) {
      refusal = message
    },
  }
}
