/**
 * Packs of the person's own in a database of the browser's. Tabs tell one another what they changed; a browser without
 * channels between tabs shows it when the packs are read again.
 */

import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import { createEmitter } from '../emitter.ts'
import type { OwnPack, PackShelf } from '../ports.ts'
import { clearlyIn } from './clearly.ts'

interface Stores extends DBSchema {
  packs: { key: string; value: OwnPack }
}

/** Opened when first asked for something: the first screen does not wait for it. */
export function createPackShelf(name = 'otherseat-packs'): PackShelf {
  const { emit, subscribe } = createEmitter<undefined>()
  const channel = 'BroadcastChannel' in globalThis ? new BroadcastChannel(name) : undefined
  channel?.addEventListener('message', () => emit(undefined))
  const clearly = clearlyIn(() => open(name), 'your packs')

  return {
    subscribe,
    all: () => clearly((db) => db.getAll('packs')),
    change: (key, change) =>
      clearly(async (db) => {
        const tx = db.transaction('packs', 'readwrite', { durability: 'strict' })
        const done = tx.done
        // The error that caused an abort is the one to report; `done` would reject with a second one.
        done.catch(() => undefined)
        const there = await tx.store.get(key)
        const next = change(there)
        if (next === there) return done
        await (next ? tx.store.put(next) : tx.store.delete(key))
        await done
        channel?.postMessage(key)
      }),
  }
}

function open(name: string): Promise<IDBPDatabase<Stores>> {
  return openDB<Stores>(name, 1, {
    upgrade: (db) => void db.createObjectStore('packs', { keyPath: 'key' }),
    // A later edition in another tab may have to change the database: it must not wait for this one.
    blocking: (_current, _blocked, event) => (event.target as IDBDatabase).close(),
  })
}
