/** A shelf for tests, kept in memory; several tabs may have one, and it refuses when told to. */

import type { OwnPack, PackShelf } from '../../src/ports.ts'

export interface FakeShelf extends PackShelf {
  /** Another tab on the same shelf. */
  tab(): PackShelf
  /** From now on nothing can be stored, for this reason; empty: there is room again. */
  refuse(message: string): void
}

export function createFakeShelf(packs: readonly OwnPack[] = []): FakeShelf {
  const kept = new Map(packs.map((pack) => [pack.key, pack]))
  const tabs: Set<() => void>[] = []
  let refusal = ''

  function tab(): PackShelf {
    const listeners = new Set<() => void>()
    tabs.push(listeners)
    return {
      all: async () => structuredClone([...kept.values()]),
      async change(key, change) {
        const there = kept.get(key)
        const next = change(there)
        if (next === there) return
        if (refusal) throw new Error(refusal)
        if (next) kept.set(key, structuredClone(next))
        else kept.delete(key)
        for (const others of tabs) if (others !== listeners) for (const listener of others) listener()
      },
      subscribe(listener) {
        listeners.add(listener)
        return () => void listeners.delete(listener)
      },
    }
  }

  return {
    ...tab(),
    tab,
    refuse(message) {
      refusal = message
    },
  }
}
