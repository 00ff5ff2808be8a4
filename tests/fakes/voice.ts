/** A voice for tests: it keeps what it said, and ends at once, or when told to. */

import type { Role } from '../../src/kernel/pack/roles.ts'
import type { ToneName } from '../../src/kernel/run/core/events.ts'
import type { Voice } from '../../src/ports.ts'

export interface FakeVoice extends Voice {
  readonly said: readonly { readonly text: string; readonly role: Role }[]
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
  const said: { text: string; role: Role }[] = []
  const tones: ToneName[] = []
  let current: { text: string; answer: (outcome: 'spoken' | 'failed' | 'cancelled') => void } | undefined
  const finish = (how: 'spoken' | 'failed' | 'cancelled') => {
    const ending = current
    current = undefined
    ending?.answer(how)
  }
  return {
    name: 'fake',
    said,
    tones,
    speak(text, role) {
      finish('cancelled')
      said.push({ text, role })
      if (!holds) return Promise.resolve(outcome)
      return new Promise((answer) => {
        current = { text, answer }
      })
    },
    endedAt: () => undefined,
    async tone(name) {
      tones.push(name)
    },
    cancel: () => finish('cancelled'),
    end: (how = 'spoken') => finish(how),
    speaking: () => current?.text,
  }
}
