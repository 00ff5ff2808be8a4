/** The ear that the pilot has chosen; where the browser's own fails, the one on this device takes over, and says so. */

import type { Vocabulary } from '../../kernel/hearing/hearable.ts'
import type { Ear, EarEvent, EarGate, ListenOrder } from '../../ports.ts'

export interface ChosenEarParts {
  readonly device: Ear
  readonly browser: Ear
  readonly choice: () => 'device' | 'browser' | 'typing'
}

export function createChosenEar({ device, browser, choice }: ChosenEarParts): Ear {
  const listeners = new Set<(event: EarEvent) => void>()
  let inUse: Ear = device
  let vocabulary: Vocabulary | undefined
  let order: ListenOrder | undefined
  let gate: EarGate = 'open'

  const pass = (from: Ear) => (event: EarEvent) => {
    if (from !== inUse) return
    for (const listener of [...listeners]) listener(event)
    if (event.type === 'failed' && from === browser) void fallBack()
  }
  for (const ear of [device, browser]) ear.subscribe(pass(ear))

  async function fallBack(): Promise<void> {
    let isDead = false
    const stop = device.subscribe((event) => {
      isDead = event.type === 'failed'
    })
    await use(device)
    stop()
    if (!isDead && inUse === device) for (const listener of [...listeners]) listener({ type: 'back' })
  }

  async function use(ear: Ear): Promise<void> {
    if (ear !== inUse) await inUse.close()
    inUse = ear
    ear.gate(gate)
    if (order) ear.listen(order)
    if (vocabulary) await ear.open(vocabulary)
  }

  return {
    async open(next) {
      vocabulary = next
      await use(choice() === 'browser' ? browser : device)
    },
    listen(next) {
      order = next
      inUse.listen(next)
    },
    shut() {
      order = undefined
      inUse.shut()
    },
    gate(next) {
      gate = next
      inUse.gate(next)
    },
    async close() {
      order = undefined
      await inUse.close()
    },
    subscribe(listener) {
      listeners.add(listener)
      return () => void listeners.delete(listener)
    },
  }
}
