/** The thread of a synthesised voice. */

import { expose, proxy, transfer } from 'comlink'
import { createFlite } from './flite.ts'
import type { SynthesisWorker } from './synthesisThread.ts'

const worker: SynthesisWorker = {
  async load(wasm) {
    const flite = await createFlite(wasm)
    return proxy({
      say(sentence: string) {
        const samples = flite.say(sentence)
        return transfer(samples, [samples.buffer])
      },
    })
  },
}
expose(worker)
