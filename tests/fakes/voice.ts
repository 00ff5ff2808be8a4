/** A voice for tests: it keeps what it said, and ends at once, or when told to. */

import type { ToneName } from '../../src/kernel/run/core/events.ts'
import type { Voice, VoicedFor } from '../../src/ports.ts'

export interface FakeVoice extends Voice {
  readonly said: readonly { readonly text: string; readonly role: VoicedFor }[]
  readonly tones: readonly ToneName[]
  /** Ends what is being said, where the voice was made to hold. */
  end(outcome?: 'spoken' | 'failed'): void
  speaking(): string | undefined
}

export interface FakeVoiceOptions {
  /** Holds each text until `end` is called. */
  readonly holds?: boolean
  readonly outcome?: 'spoken' | 'failed'
}

export function createFakeVoice({ holds = false, outcome = 'spoken' }: FakeVoiceOptions = {}): FakeVoice {
  const said: { text: string; role: VoicedFor }[] = []
  const tones: ToneName[] = []
  let current: { text: string; finish: (outcome: 'spoken' | 'failed' | 'cancelled') => void } | undefined
  return {
    name: 'fake',
    said,
    tones,
    speak(text, role, signal) {
      said.push({ text, role })
      if (signal?.aborted) return Promise.resolve('cancelled')
      if (!holds) return Promise.resolve(outcome)
      return new Promise((answer) => {
        const mine = {
          text,
          finish(how: 'spoken' | 'failed' | 'cancelled') {
            if (current === mine) current = undefined
            answer(how)
          },
        }
        current = mine
        signal?.addEventListener('abort', () => mine.finish('cancelled'))
      })
    },
    endedAt: () => undefined,
    async tone(name) {
      tones.push(name)
    },
    end: (how = 'spoken') => current?.finish(how),
    speaking: () => current?.text,
  }
}
