/**
 * One writer for a run: a Web Lock with the run's name, held as long as this tab writes it. Where the
 * browser has no Web Locks, the log itself refuses the second writer (an event's number is taken once).
 */

import type { RunLock } from '../../ports.ts'
import { RUN_LOCK } from '../runLock.ts'

/** After a reload the page before may hold its lock a moment longer. */
const WAIT_MS = 700

export function createTabLock(locks: LockManager | undefined = globalThis.navigator?.locks, waitMs = WAIT_MS): RunLock {
  let held: { runId: string; lost: () => void; release: () => void } | undefined

  function release(): void {
    held?.release()
    held = undefined
  }

  const nameOf = (runId: string) => `${RUN_LOCK}${runId}`

  return {
    release,
    async isHeld(runId) {
      const all = await locks?.query()
      return held?.runId === runId || (all?.held ?? []).some(({ name }) => name === nameOf(runId))
    },
    async hold(runId, { steal, lost }) {
      if (held?.runId === runId) {
        held.lost = lost
        return true
      }
      release()
      if (!locks) return true
      return new Promise<boolean>((answer) => {
        let mine: typeof held
        const granted = () =>
          new Promise<void>((done) => {
            mine = { runId, lost, release: done }
            held = mine
            answer(true)
          })
        const options: LockOptions = steal ? { steal } : { signal: AbortSignal.timeout(waitMs) }
        // Rejects if nobody let go in time, or later, when another tab takes the lock over.
        locks.request(nameOf(runId), options, granted).catch(() => {
          answer(false)
          if (!mine || held !== mine) return
          held = undefined
          mine.lost()
        })
      })
    },
  }
}
