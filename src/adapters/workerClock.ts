/** Real time for a page that is often behind a simulator: due times are kept as clock times, in a worker. */

import type { Clock } from '../ports.ts'
import { systemClock } from './clock.ts'
import type { ToTimer } from './timer.worker.ts'

/** `start` makes the worker; where it cannot, or it breaks, the page's own timers serve. */
export function createWorkerClock(start: () => Worker = startWorker): Clock {
  const calls = new Map<number, { readonly at: number; readonly call: () => void }>()
  let worker: Worker | undefined
  let last = 0
  const due = (id: number) => {
    const timer = calls.get(id)
    calls.delete(id)
    timer?.call()
  }
  try {
    worker = start()
    worker.onmessage = ({ data }: MessageEvent<number>) => due(data)
    worker.onerror = () => {
      worker = undefined
      for (const [id, { at }] of calls) systemClock.after(at - Date.now(), () => due(id))
    }
  } catch {
    worker = undefined
  }
  const tell = (message: ToTimer) => worker?.postMessage(message)
  return {
    now: systemClock.now,
    after(ms, call) {
      const id = ++last
      const at = Date.now() + ms
      calls.set(id, { at, call })
      if (worker) tell({ id, at })
      else systemClock.after(ms, () => due(id))
      return () => {
        if (calls.delete(id)) tell({ id })
      }
    },
  }
}

const startWorker = () => new Worker(new URL('./timer.worker.ts', import.meta.url), { type: 'module' })
