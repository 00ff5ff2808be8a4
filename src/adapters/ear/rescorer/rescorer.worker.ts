/** The thread around the weigher: it takes in sounds, weighs texts and hears for whoever holds the other end of a line. */

import type { FromWeigher, ToWeigher, WeighingAnswer, WeighingOrder } from '../device/messages.ts'
import type { Weighed } from './hypothesis.ts'
import { type Taken, Weigher } from './rescorer.ts'

let weigher: Weigher | undefined
/** Sounds that may still be asked about: an answer that goes on is taken in anew. */
const KEPT = 4

const say = (message: FromWeigher) => self.postMessage(message)

self.onmessage = ({ data }: MessageEvent<ToWeigher>) => {
  receive(data).catch((error: unknown) => say({ type: 'broken', message: String(error).slice(0, 200) }))
}

async function receive(message: ToWeigher): Promise<void> {
  switch (message.type) {
    case 'load':
      weigher = await Weigher.create({
        encoder: new Uint8Array(message.encoder),
        decoder: new Uint8Array(message.decoder),
      })
      return say({ type: 'loaded' })
    case 'line':
      return serve(message.port)
    default:
      return message satisfies never
  }
}

function serve(port: MessagePort): void {
  const taken = new Map<number, Promise<Taken>>()
  const answer = async (id: number, of: (weigher: Weigher, sound: Taken) => Promise<readonly Weighed[]>) => {
    const sound = await taken.get(id)?.catch(() => undefined)
    const sayings = weigher && sound && (await of(weigher, sound).catch(() => undefined))
    port.postMessage({ id, sayings } satisfies WeighingAnswer)
  }
  port.onmessage = ({ data }: MessageEvent<WeighingOrder>) => {
    switch (data.type) {
      case 'take': {
        const sound = weigher?.take(data.pcm)
        // Whoever asks about it is told.
        sound?.catch(() => {})
        if (sound) taken.set(data.id, sound)
        taken.delete(data.id - KEPT)
        return
      }
      case 'weigh':
        return void answer(data.id, (weigher, sound) => weigher.weigh(sound, data.texts))
      case 'hear':
        return void answer(data.id, (weigher, sound) => weigher.hear(sound, data.grammar, data.beside))
      case 'hearAnything':
        return void answer(data.id, (weigher, sound) => weigher.hearAnything(sound))
      default:
        return data satisfies never
    }
  }
}
