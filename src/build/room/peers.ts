/** What the processes of one server share besides what is stored. One process alone has it in memory. */

import { bucketsBy, type Limit } from './limits.ts'

/** Done by one process, to be known by all. */
export type News = { readonly closed: string } | { readonly seats: string }

export interface SharedLimit {
  /** False where there is nothing left for this name. */
  take(of: string): Promise<boolean>
  giveBack(of: string): Promise<void>
}

/** Channels by name; a process does not hear itself. */
export interface Bus {
  publish(channel: string, data: Uint8Array): Promise<void>
  subscribe(channel: string, hear: (data: Uint8Array) => void): Promise<void>
  unsubscribe(channel: string): Promise<void>
}

export interface Peers {
  /** Between processes; undefined where there is one alone. */
  readonly bus?: Bus
  limit(name: string, limit: Limit): SharedLimit
  /** This process has one more, or one less, link of the room's instructor. */
  linked(room: string): void
  unlinked(room: string): void
  /** Whether any process has one. */
  isLinked(room: string): Promise<boolean>
  /** Takes free keys of a document, each for one entry (by its id); false where another entry has one of them. */
  claim(document: string, entries: () => ReadonlyMap<string, string>): Promise<boolean>
  /** To the other processes. */
  tell(news: News): void
  /** `missed`: news may have been missed. */
  hear(told: (news: News) => void, missed: () => void): void
  close(): Promise<void>
}

/** How many links of an instructor each room has here. */
export function createCounts() {
  const counts = new Map<string, number>()
  return {
    rooms: () => [...counts.keys()],
    has: (room: string) => counts.has(room),
    add: (room: string) => void counts.set(room, (counts.get(room) ?? 0) + 1),
    /** True where it was the last. */
    take(room: string): boolean {
      const left = (counts.get(room) ?? 0) - 1
      if (left > 0) counts.set(room, left)
      else counts.delete(room)
      return left <= 0
    },
  }
}

export function createAlone(now: () => number): Peers {
  const counts = createCounts()
  return {
    limit(_, limit) {
      const buckets = bucketsBy(limit, now)
      return { take: async (of) => buckets.of(of).take(), giveBack: async (of) => buckets.of(of).giveBack() }
    },
    linked: counts.add,
    unlinked: counts.take,
    isLinked: async (room) => counts.has(room),
    // Its documents know all entries that there are.
    claim: async () => true,
    tell: () => undefined,
    hear: () => undefined,
    close: async () => undefined,
  }
}
