/** What the thread of the second model answers to whoever holds the other end of a port. */

import type { Grammar } from '../../../kernel/grammarRules.ts'
import type { Hypothesis } from '../utterance/hypothesis.ts'
import type { PhoneFrames } from '../utterance/phoneBeam.ts'
import type { EncodedSound, Rescorer } from './rescorer.ts'

/** Sounds have numbers, which the caller gives. An answer is undefined where the model could not. */
export interface RescorerCalls {
  encode(sound: number, pcm: Float32Array, silence: number | undefined): void
  rescore(sound: number, texts: readonly string[]): Promise<readonly Hypothesis[] | undefined>
  decodeConstrained(
    sound: number,
    grammar: Grammar,
    alongside: readonly string[],
  ): Promise<readonly Hypothesis[] | undefined>
  decodeFree(sound: number): Promise<readonly Hypothesis[] | undefined>
  phonesOf(sound: number): Promise<PhoneFrames | undefined>
}

/** Sounds that may still be asked about: an answer that goes on is encoded anew, and one of words in two ways. */
const KEPT = 8

export function rescorerCalls(
  rescorer: Pick<Rescorer, 'encode' | 'rescore' | 'decodeConstrained' | 'decodeFree' | 'phonesOf'>,
): RescorerCalls {
  const sounds = new Map<number, Promise<EncodedSound>>()
  const about = async <Answer>(sound: number, ask: (encoded: EncodedSound) => Promise<Answer>) => {
    const encoded = await sounds.get(sound)?.catch(() => undefined)
    return encoded && (await ask(encoded).catch(() => undefined))
  }
  return {
    encode(sound, pcm, silence) {
      const encoding = rescorer.encode(pcm, silence)
      // Whoever asks about the sound gets no answer.
      encoding.catch(() => {})
      sounds.set(sound, encoding)
      sounds.delete(sound - KEPT)
    },
    rescore: (sound, texts) => about(sound, (encoded) => rescorer.rescore(encoded, texts)),
    decodeConstrained: (sound, grammar, alongside) =>
      about(sound, (encoded) => rescorer.decodeConstrained(encoded, grammar, alongside)),
    decodeFree: (sound) => about(sound, (encoded) => rescorer.decodeFree(encoded)),
    phonesOf: (sound) => about(sound, (encoded) => rescorer.phonesOf(encoded)),
  }
}
