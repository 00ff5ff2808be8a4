/** The ear that the pilot has chosen. Where another one fails, the one that needs nothing else takes over, and says so. */

import { createEmitter } from '../../emitter.ts'
import type { Ear, EarEvent } from '../../ports.ts'
import type { Asked, EarKind, EarOptions, WayOfHearing } from './ear.ts'

export interface ChosenEarParts<Name extends string> extends EarOptions {
  readonly ears: Readonly<Record<Name, Pick<EarKind, 'create'>>>
  /** Takes over where another one fails, or one was chosen that there is not. */
  readonly fallback: NoInfer<Name>
}

export function createChosenEar<Name extends string>({ ears, fallback, ...options }: ChosenEarParts<Name>): Ear {
  const { emit, subscribe } = createEmitter<EarEvent>()
  const made: Partial<Record<Name, WayOfHearing>> = {}
  let asked: Asked = { gate: 'open' }
  let inUse = fallback
  let hasFailed = false

  const isThere = (name: string): name is Name => Object.hasOwn(ears, name)

  function earOf(name: Name): WayOfHearing {
    const ear = made[name] ?? ears[name].create({ ...options, asked: () => asked, emit: (event) => pass(name, event) })
    made[name] = ear
    return ear
  }

  function pass(from: Name, event: EarEvent): void {
    if (from !== inUse) return
    if (event.type === 'failed') hasFailed = true
    emit(event)
    if (event.type === 'failed' && from !== fallback) void fallBack()
  }

  async function fallBack(): Promise<void> {
    await use(fallback)
    if (!hasFailed && inUse === fallback) emit({ type: 'back' })
  }

  async function use(name: Name): Promise<void> {
    if (name !== inUse) await made[inUse]?.close()
    inUse = name
    hasFailed = false
    if (asked.vocabulary) await earOf(name).open()
  }

  return {
    async open(vocabulary) {
      asked = { ...asked, vocabulary }
      const { ear } = options.settings()
      await use(isThere(ear) ? ear : fallback)
    },
    listen(request) {
      asked = { ...asked, request }
      made[inUse]?.listen(request)
    },
    shut() {
      const { request: _, ...rest } = asked
      asked = rest
      made[inUse]?.shut()
    },
    gate(gate) {
      asked = { ...asked, gate }
      made[inUse]?.gate(gate)
    },
    async close() {
      const { request: _, ...rest } = asked
      asked = rest
      await made[inUse]?.close()
    },
    subscribe,
  }
}
