/** The thread of the second model. */

import { expose, proxy } from 'comlink'
import { Rescorer } from './rescorer.ts'
import { rescorerCalls } from './rescorerCalls.ts'
import type { RescorerWorker } from './rescorerThread.ts'

const worker: RescorerWorker = {
  async load(encoder, decoder, phones) {
    const rescorer = await Rescorer.create({
      encoder: new Uint8Array(encoder),
      decoder: new Uint8Array(decoder),
      phones: new Uint8Array(phones),
    })
    return proxy({
      connect: (port: MessagePort) => expose(rescorerCalls(rescorer), port),
    })
  },
}
expose(worker)
