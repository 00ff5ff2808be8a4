/** An ear for tests: it hears what it is told to, in the order that is in force. */

import { createEmitter } from '../../src/emitter.ts'
import type { Vocabulary } from '../../src/kernel/hearing/hearable.ts'
import type { Heard } from '../../src/kernel/hearing/heard.ts'
import type { Ear, EarEvent, EarGate, ListenOrder } from '../../src/ports.ts'

export interface FakeEar extends Ear {
  /** Every order given, newest last. */
  readonly orders: readonly ListenOrder[]
  /** Every change of the gate, newest last. */
  readonly gates: readonly EarGate[]
  readonly vocabularies: readonly Vocabulary[]
  /** The order in force; undefined while shut. */
  listening(): ListenOrder | undefined
  /** The pilot says something; `order` names an earlier order for words that come late. */
  hear(text: string, more?: Partial<Heard>): void
  emit(event: EarEvent): void
}

export function createFakeEar(now: () => number = () => 0): FakeEar {
  const listeners = createEmitter<EarEvent>()
  const orders: ListenOrder[] = []
  const vocabularies: Vocabulary[] = []
  const gates: EarGate[] = []
  let current: ListenOrder | undefined
  let isDead = false
  const emit = (event: EarEvent) => {
    if (event.type === 'failed') isDead = true
    listeners.emit(event)
  }
  return {
    orders,
    gates,
    vocabularies,
    listening: () => current,
    emit,
    async open(vocabulary) {
      vocabularies.push(vocabulary)
      isDead = false
      emit({ type: 'state', state: 'shut' })
    },
    listen(order) {
      current = order
      orders.push(order)
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
      const order = more.order ?? current?.order
      if (order === undefined) throw new Error(`nobody listens to "${text}"`)
      emit({ type: 'heard', heard: { text, beganAt: now(), endedAt: now(), by: 'voice', ...more, order } })
    },
  }
}
