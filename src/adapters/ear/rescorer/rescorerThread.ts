/** Starts the thread of the second model. */

import { type ProxyMarked, type Remote, transfer } from 'comlink'
import { loadThread } from '../../threads.ts'
import { fetchRescorer } from '../device/modelFiles.ts'

/** What the thread answers. */
export interface RescorerWorker {
  load(encoder: ArrayBuffer, decoder: ArrayBuffer, phones: ArrayBuffer): Promise<RescorerConnector & ProxyMarked>
}
interface RescorerConnector {
  /** Answers `RescorerCalls` on this port. */
  connect(port: MessagePort): void
}

export interface RescorerThread {
  /** A port that leads to `RescorerCalls`. */
  connect(): MessagePort
  end(): void
}

/** The files are there by then; a model that takes longer to start never will. */
const LOAD_MS = 120_000

/** Rejects where the model cannot be fetched or loaded. `base` is the folder with the models, with a slash at its end. */
export async function startRescorer(base: string): Promise<RescorerThread> {
  const { encoder, decoder, phones } = await fetchRescorer(base)
  const worker = new Worker(new URL('./rescorer.worker.ts', import.meta.url), { type: 'module', name: 'rescorer' })
  const connector = await loadThread(
    worker,
    (calls: Remote<RescorerWorker>) =>
      calls.load(transfer(encoder, [encoder]), transfer(decoder, [decoder]), transfer(phones, [phones])),
    LOAD_MS,
  )
  return {
    connect() {
      const { port1, port2 } = new MessageChannel()
      void connector.connect(transfer(port1, [port1]))
      return port2
    },
    end: () => worker.terminate(),
  }
}
