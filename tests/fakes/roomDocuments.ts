/** The documents of a room in memory, as its server keeps them, for one page or several. */

import type { RoomDocuments, RoomEntries } from '../../src/ports.ts'

export interface FakeRoom {
  documents(): RoomDocuments
  entries(kind: string, seat?: string): RoomEntries
}

export function createFakeRoom(): FakeRoom {
  const kept = new Map<string, ReturnType<typeof fakeEntries>>()
  const entries = (kind: string, seat = '') => {
    const name = `${kind}/${seat}`
    const there = kept.get(name) ?? fakeEntries()
    kept.set(name, there)
    return there
  }
  return {
    entries,
    documents: () => ({
      open: ({ kind, seat }) => entries(kind, seat),
      state: () => 'linked',
      subscribe: () => () => undefined,
      close() {},
    }),
  }
}

function fakeEntries(): RoomEntries {
  const all = new Map<string, string>()
  const listeners = new Set<() => void>()
  let presence: readonly object[] = []
  const tell = () => {
    for (const listener of listeners) listener()
  }
  return {
    all: () => all,
    isRead: () => true,
    add(key, value) {
      if (all.has(key)) return
      all.set(key, value)
      tell()
    },
    subscribe(listener) {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    present(what) {
      presence = [what]
      tell()
    },
    others: () => presence,
  }
}
