/** Plays what was kept of an utterance, through the page's one output. */

import type { SoundPlayer } from '../../ports.ts'
import type { Sound } from './sound.ts'

/** As the ear hears it. */
const RATE = 16_000
const LOUDEST = 32_768

export function createSoundPlayer(sound: Sound): SoundPlayer {
  return {
    async play(samples, signal) {
      const context = await sound.running()
      if (!context) return false
      if (signal.aborted || samples.length === 0) return true
      const buffer = context.createBuffer(1, samples.length, RATE)
      buffer.getChannelData(0).set(Float32Array.from(samples, (sample) => sample / LOUDEST))
      const source = context.createBufferSource()
      source.buffer = buffer
      source.connect(context.destination)
      await new Promise<void>((ended) => {
        source.addEventListener('ended', () => ended(), { once: true })
        signal.addEventListener('abort', () => source.stop(), { once: true })
        source.start()
      })
      return true
    },
  }
}
