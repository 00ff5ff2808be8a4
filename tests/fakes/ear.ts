/** An ear for tests: it hears what it is told to, in the order that is in force. */

import { createEmitter } from '../../src/emitter.ts'
import type { Vocabulary } from '../../src/kernel/hearing/hearable.ts'
import type { Heard } from '../../src/kernel/hearing/heard.ts'
import type { Ear, EarEvent, EarGate, ListenRequest } from '../../src/ports.ts'

export interface FakeEar extends Ear {
  /** Every request to listen, newest last. */
  readonly requests: readonly ListenRequest[]
  /** Every change of the gate, newest last. */
  readonly gates: readonly EarGate[]
  readonly vocabularies: readonly Vocabulary[]
  /** The request in force; undefined while shut. */
  listening(): ListenRequest | undefined
  /** The pilot says something; `listenId` names an earlier turn for words that come late. */
  hear(text: string, more?: Partial<Heard>): void
  /** What the pilot says next sounds like this, to whoever asks for it. */
  sounds(samples: Int16Array): void
  emit(event: EarEvent): void
}

export function createFakeEar(now: () => number = () => 0): FakeEar {
  const listeners = createEmitter<EarEvent>()
  const requests: ListenRequest[] = []
  const vocabularies: Vocabulary[] = []
  const gates: EarGate[] = []
  let current: ListenRequest | undefined
  let isDead = false
  let samples: Int16Array | undefined
  const emit = (event: EarEvent) => {
    if (event.type === 'failed') isDead = true
    listeners.emit(event)
  }
  return {
    requests,
    gates,
    vocabularies,
    listening: () => current,
    emit,
    async open(vocabulary) {
      vocabularies.push(vocabulary)
      isDead = false
      emit({ type: 'state', state: 'shut' })
    },
    listen(request) {
      current = request
      requests.push(request)
      if (!isDead) emit({ type: 'state', state: 'open' })
    },
    shut() {
      current = undefined
      if (!isDead) emit({ type: 'state', state: 'shut' })
    },
    gate: (gate) => void gates.push(gate),
    async close() {
      current = undefined
      emit({ type: 'state', state: 'off' })
    },
    subscribe: listeners.subscribe,
    hear(text, more = {}) {
      const listenId = more.listenId ?? current?.listenId
      if (listenId === undefined) throw new Error(`nobody listens to "${text}"`)
      const heard: Heard = { text, beganAt: now(), endedAt: now(), by: 'voice', ...more, listenId }
      if (samples && heard.by === 'voice' && requests.find((one) => one.listenId === listenId)?.keepsSound) {
        emit({ type: 'sound', listenId, beganAt: heard.beganAt, samples })
      }
      samples = undefined
      emit({ type: 'heard', heard })
    },
    sounds(next) {
      samples = next
    },
  }
}
