/** Texts that can be made again or are no great loss, in a database of the browser's; where it keeps nothing, as long as the page lives. */

import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import type { TextCache } from '../ports.ts'

interface Stores extends DBSchema {
  texts: { key: string; value: string }
}

/** Opened when first asked for something. */
export function createTextCache(name: string): TextCache {
  const inMemory = new Map<string, string>()
  let opening: Promise<IDBPDatabase<Stores> | undefined> | undefined
  const database = () => {
    opening ??= openDB<Stores>(name, 1, {
      upgrade: (db) => void db.createObjectStore('texts'),
      // A later edition in another tab may have to change the database: it must not wait for this one.
      blocking: (_current, _blocked, event) => (event.target as IDBDatabase).close(),
    }).catch(() => undefined)
    return opening
  }
  return {
    async get(key) {
      try {
        return inMemory.get(key) ?? (await (await database())?.get('texts', key))
      } catch {
        return undefined
      }
    },
    async all() {
      try {
        const db = await database()
        if (!db) return inMemory
        const tx = db.transaction('texts')
        const [keys, values] = await Promise.all([tx.store.getAllKeys(), tx.store.getAll()])
        return new Map([...keys.map((key, index) => [key, values[index] ?? ''] as const), ...inMemory])
      } catch {
        return inMemory
      }
    },
    async put(texts) {
      for (const [key, text] of texts) inMemory.set(key, text)
      try {
        const tx = (await database())?.transaction('texts', 'readwrite')
        if (!tx) return
        for (const [key, text] of texts) await tx.store.put(text, key)
        await tx.done
      } catch {
        // What was not kept is made again.
      }
    },
  }
}
