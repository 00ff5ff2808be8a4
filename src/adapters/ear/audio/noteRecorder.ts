/** Records what an instructor says, from the same microphone and in the same form as the ear's: 16 kHz mono, 16 bits. */

import type { Clock, EarFailure, NoteRecorder } from '../../../ports.ts'
import type { CapturedFrame } from './frame.ts'
import { openMicrophone } from './microphone.ts'
import { inSixteenBits } from './sixteenBits.ts'

/** What the ear says of it is about answers. */
const WORDS: Partial<Readonly<Record<EarFailure['code'], string>>> = {
  unsupported: 'This browser gives the page no microphone here: open the page over https, or on localhost.',
  refused: 'The microphone is not allowed: allow it at the padlock beside the address, then record again.',
  noMicrophone: 'No microphone was found: plug one in, then record again.',
  lost: 'The microphone is gone; what was said before is kept.',
  muted: 'The system has muted the microphone; what was said before is kept.',
}
const OTHERS = 'The microphone does not start, another program may hold it: close that, then record again.'

export function createNoteRecorder(clock: Clock, deviceId: () => string): NoteRecorder {
  return {
    async begin(lost) {
      const words = ({ code }: EarFailure) => WORDS[code] ?? OTHERS
      const opened = await openMicrophone(clock, deviceId(), (failure) => lost(words(failure)))
      if ('failure' in opened) return { why: words(opened.failure) }
      const { frames, close } = opened.microphone
      const heard: Float32Array[] = []
      frames.onmessage = ({ data }: MessageEvent<CapturedFrame>) => void heard.push(data.pcm)
      return {
        async stop() {
          await close()
          frames.close()
          const samples = new Int16Array(heard.reduce((sum, { length }) => sum + length, 0))
          let at = 0
          for (const pcm of heard) {
            samples.set(inSixteenBits(pcm), at)
            at += pcm.length
          }
          return samples
        },
      }
    },
  }
}
