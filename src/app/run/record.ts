/**
 * The events of a run: in memory always, in the log as far as it can be stored.
 *
 * The rule where the log cannot be stored, for all of the app: the run goes on in memory, the pilot is told at once
 * (before anything more is said or shown, by a tone and on every screen), and the log can be saved as a file, which
 * holds everything. A pilot in the middle of an engine start is served worse by a checklist that falls silent than by
 * a log that has to be saved by hand. With each further event what is missing is tried again, in order, so that the
 * log is whole once there is room; then the pilot is told that as well.
 */

import type { RunEvent } from '../../kernel/run/core/events.ts'
import type { RunLog } from '../../ports.ts'

export interface Storage {
  readonly kept: boolean
  /** Why not; empty where it is. */
  readonly message: string
}

export interface RunRecord {
  readonly events: () => readonly RunEvent[]
  /** Resolves when the event is stored, or when it is known that it cannot be and `report` was called. */
  add(event: RunEvent): Promise<void>
}

/** `before`: what there is of the run already, of which the log holds the first `held`. `report` is called whenever the answer changes. */
export function createRecord(
  log: Pick<RunLog, 'append'>,
  before: readonly RunEvent[],
  report: (storage: Storage) => void,
  held = before.length,
): RunRecord {
  const events: RunEvent[] = [...before]
  let stored = held
  let known: Storage = { kept: true, message: '' }

  function tell(storage: Storage): void {
    if (storage.kept === known.kept && storage.message === known.message) return
    known = storage
    report(storage)
  }

  async function storeAll(): Promise<void> {
    for (const event of events.slice(stored)) {
      await log.append(event)
      stored += 1
    }
  }

  return {
    events: () => events,
    async add(event) {
      events.push(event)
      try {
        await storeAll()
        tell({ kept: true, message: '' })
      } catch (error) {
        tell({ kept: false, message: error instanceof Error ? error.message : String(error) })
      }
    },
  }
}
