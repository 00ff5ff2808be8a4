/** Threads that are loaded or not there at all, and answers that come in time or not at all. */

import { type Remote, wrap } from 'comlink'

/**
 * Resolves to what `load` does once the worker has done it. Rejects, and ends the worker, where that fails or takes longer
 * than `withinMs`.
 */
export async function loadThread<Calls, Loaded>(
  worker: Worker,
  load: (calls: Remote<Calls>) => Promise<Loaded>,
  withinMs: number,
): Promise<Loaded> {
  const failed = new Promise<never>((_, reject) => {
    worker.addEventListener('error', (event) => reject(new Error(event.message)), { once: true })
  })
  try {
    return await within(withinMs, Promise.race([load(wrap<Calls>(worker)), failed]))
  } catch (error) {
    worker.terminate()
    throw error
  }
}

/** Rejects where the answer takes longer, ms. */
export async function within<T>(ms: number, answer: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`no answer within ${ms} ms`)), ms)
  })
  return Promise.race([answer, late]).finally(() => clearTimeout(timer))
}
