/** The two workers of the ear: started, loaded and joined, or not at all. */

import type { FrontEnd } from '../recogniser/decoder.ts'
import type { FromWorker, ToWorker } from './messages.ts'
import type { Model } from './modelFiles.ts'
import type { KnownSpeaker } from './storedSpeaker.ts'

export interface Workers {
  first(message: ToWorker, transfer?: Transferable[]): void
  both(message: ToWorker): void
  end(): void
}

/** A model that takes longer than this to load never will. */
const LOAD_MS = 30_000

/** Rejects where a worker cannot load; afterwards a failure is told by `broke`, once. */
export async function startWorkers(
  model: Model,
  {
    receive,
    broke,
    speaker,
  }: {
    receive: (message: FromWorker) => void
    broke: () => void
    speaker: KnownSpeaker
  },
): Promise<Workers> {
  const workers = [newWorker(), newWorker()] as const
  const [first, second] = workers
  const end = () => {
    for (const worker of workers) {
      worker.onmessage = null
      worker.onerror = null
      worker.terminate()
    }
  }
  const { files, denoiser } = model
  const loading = (worker: Worker, frontEnd: FrontEnd) => {
    const known = speaker.get(frontEnd)
    return loaded(worker, { type: 'load', frontEnd, files, denoiser, ...(known && { known }) })
  }
  try {
    await Promise.all([loading(first, 'plain'), loading(second, 'cleaned')])
  } catch (error) {
    end()
    throw error
  }
  let isBroken = false
  for (const worker of workers) {
    const breakOnce = () => {
      if (isBroken) return
      isBroken = true
      broke()
    }
    worker.onerror = breakOnce
    worker.onmessage = ({ data }: MessageEvent<FromWorker>) => (data.type === 'broken' ? breakOnce() : receive(data))
  }
  const { port1, port2 } = new MessageChannel()
  post(first, { type: 'peer', port: port1 }, [port1])
  post(second, { type: 'peer', port: port2 }, [port2])
  return {
    first: (message, transfer) => post(first, message, transfer),
    both(message) {
      for (const worker of workers) post(worker, message)
    },
    end,
  }
}

const newWorker = () => new Worker(new URL('./firstPass.worker.ts', import.meta.url), { type: 'module' })
const post = (worker: Worker, message: ToWorker, transfer: Transferable[] = []) => worker.postMessage(message, transfer)

function loaded(worker: Worker, order: ToWorker): Promise<void> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error('the recogniser took too long to load')), LOAD_MS)
    const done = (finish: () => void) => {
      clearTimeout(timer)
      finish()
    }
    worker.onmessage = ({ data }: MessageEvent<FromWorker>) =>
      done(() => (data.type === 'loaded' ? resolve() : reject(new Error('message' in data ? data.message : data.type))))
    worker.onerror = (event) => done(() => reject(new Error(event.message)))
    post(worker, order)
  })
}
