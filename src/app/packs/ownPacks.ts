/**
 * Packs of the person's own, whether the browser keeps them or not: what cannot be stored is held in memory as long as
 * the page is open, flown like any other, and said to be lost with it.
 */

import type { OwnPack, PackShelf } from '../../ports.ts'

export type Change = Parameters<PackShelf['change']>[1]

export interface OwnPacks {
  /** The one changed last comes first. */
  all(): Promise<readonly OwnPack[]>
  /** As the shelf's, and never rejects. */
  change(key: string, change: Change): Promise<void>
  /** Why something is held in memory alone; empty where nothing is. */
  whyUnkept(): string
  subscribe(listener: () => void): () => void
}

export function createOwnPacks(shelf: PackShelf): OwnPacks {
  const unkept = new Map<string, OwnPack>()
  let why = ''

  const stored = () => shelf.all().catch(() => [])

  return {
    subscribe: shelf.subscribe,
    whyUnkept: () => (unkept.size > 0 ? why : ''),
    async all() {
      const kept = (await stored()).filter(({ key }) => !unkept.has(key))
      return [...kept, ...unkept.values()].sort((one, other) => other.changedAt - one.changedAt)
    },
    async change(key, change) {
      const mine = unkept.get(key)
      try {
        await shelf.change(key, (there) => change(mine ?? there))
        unkept.delete(key)
      } catch (error) {
        why = error instanceof Error ? error.message : String(error)
        const next = change(mine ?? (await stored()).find((one) => one.key === key))
        if (next) unkept.set(key, next)
        else unkept.delete(key)
      }
    },
  }
}
