/** The second model as the first pass's thread asks it. A model that does not answer in time is done without from then on. */

import { wrap } from 'comlink'
import { within } from '../../threads.ts'
import type { TakeIn } from '../utterance/rescoring.ts'
import type { RescorerCalls } from './rescorerCalls.ts'

/** Many times what a slow machine takes; a pilot who has waited this long is asked again anyway. */
const PATIENCE_MS = 3_000

/** `port` leads to a `RescorerCalls`. `lost` is called once, when an answer did not come. */
export function rescorerClient(port: MessagePort, lost: () => void): TakeIn {
  const calls = wrap<RescorerCalls>(port)
  const loss = new AbortController()
  const whenLost = new Promise<undefined>((resolve) => {
    loss.signal.addEventListener('abort', () => resolve(undefined))
  })
  let sounds = 0

  async function ask<Answer>(call: () => Promise<Answer | undefined>): Promise<Answer | undefined> {
    if (loss.signal.aborted) return undefined
    const inTime = within(PATIENCE_MS, call()).catch(() => {
      if (!loss.signal.aborted) lost()
      loss.abort()
      return undefined
    })
    return Promise.race([inTime, whenLost])
  }

  return (pcm, grammar, silence) => {
    if (loss.signal.aborted) return undefined
    const sound = ++sounds
    void calls.encode(sound, pcm, silence)
    return {
      rescore: (texts) => ask(() => calls.rescore(sound, texts)),
      decodeConstrained: (alongside) => ask(() => calls.decodeConstrained(sound, grammar, alongside)),
      decodeFree: () => ask(() => calls.decodeFree(sound)),
      phones: () => ask(() => calls.phonesOf(sound)),
    }
  }
}
