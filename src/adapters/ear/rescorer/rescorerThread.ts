/** The weigher's worker: started and loaded, or not at all. */

import type { FromWeigher, ToWeigher } from '../device/messages.ts'
import { fetchWeigher } from '../device/modelFiles.ts'

export interface WeigherThread {
  /** A line on which sounds are taken in and texts weighed. */
  line(): MessagePort
  end(): void
}

/** Rejects where the model cannot be fetched or loaded. `base` is the folder with the model, with a slash at its end. */
export async function startWeigher(base: string): Promise<WeigherThread> {
  const model = await fetchWeigher(base)
  const worker = new Worker(new URL('./rescorer.worker.ts', import.meta.url), {
    type: 'module',
    name: 'weigher',
  })
  const tell = (message: ToWeigher, transfer: Transferable[]) => worker.postMessage(message, transfer)
  try {
    await new Promise<void>((resolve, reject) => {
      worker.onmessage = ({ data }: MessageEvent<FromWeigher>) =>
        data.type === 'loaded' ? resolve() : reject(new Error(data.message))
      worker.onerror = (event) => reject(new Error(event.message))
      tell({ type: 'load', ...model }, [model.encoder, model.decoder])
    })
  } catch (error) {
    worker.terminate()
    throw error
  }
  return {
    line() {
      const { port1, port2 } = new MessageChannel()
      tell({ type: 'line', port: port1 }, [port1])
      return port2
    },
    end: () => worker.terminate(),
  }
}
