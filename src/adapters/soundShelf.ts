/**
 * The sound of what was said, in a database of its own: it is far larger than the logs, and may be lost without them. How
 * much a run has is kept beside it, so that nobody has to read sound to know its size.
 */

import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import type { RunSounds, SoundShelf } from '../ports.ts'
import { clearlyIn } from './clearly.ts'

interface Stores extends DBSchema {
  sounds: { key: [runId: string, seq: number]; value: Int16Array }
  /** Bytes by run. */
  sizes: { key: string; value: number }
}

/** Opened when first asked for something: no screen waits for it. */
export function createSoundShelf(name = 'otherseat-sound'): SoundShelf {
  const clearly = clearlyIn(() => open(name), 'the sound')

  return {
    put: (runId, sounds) => clearly((db) => putAll(db, runId, sounds)),
    read: (runId, seq) => clearly((db) => db.get('sounds', [runId, seq])),
    numbers: (runId) => clearly(async (db) => (await db.getAllKeys('sounds', allOf(runId))).map(([, seq]) => seq)),
    take: (runId) =>
      clearly(async (db) => {
        const tx = db.transaction(['sounds', 'sizes'], 'readwrite')
        const kept = tx.objectStore('sounds')
        const [keys, sounds] = [await kept.getAllKeys(allOf(runId)), await kept.getAll(allOf(runId))]
        await kept.delete(allOf(runId))
        await tx.objectStore('sizes').delete(runId)
        await tx.done
        return new Map(keys.flatMap(([, seq], at) => (sounds[at] ? [[seq, sounds[at]] as const] : [])))
      }),
    size: () =>
      clearly(async (db) => {
        const sizes = await db.getAll('sizes')
        return { bytes: sizes.reduce((sum, bytes) => sum + bytes, 0), runs: sizes.length }
      }),
    deleteAll: () =>
      clearly(async (db) => {
        const tx = db.transaction(['sounds', 'sizes'], 'readwrite')
        await tx.objectStore('sounds').clear()
        await tx.objectStore('sizes').clear()
        await tx.done
      }),
  }
}

/** An array sorts after every number, so this spans all sounds of the run. */
const allOf = (runId: string) => IDBKeyRange.bound([runId], [runId, []])

async function putAll(db: IDBPDatabase<Stores>, runId: string, sounds: RunSounds): Promise<void> {
  const tx = db.transaction(['sounds', 'sizes'], 'readwrite')
  const done = tx.done
  // The error that caused an abort is the one to report; `done` would reject with a second one.
  done.catch(() => undefined)
  const [kept, sizes] = [tx.objectStore('sounds'), tx.objectStore('sizes')]
  try {
    let bytes = (await sizes.get(runId)) ?? 0
    for (const [seq, samples] of sounds) {
      if ((await kept.getKey([runId, seq])) !== undefined) continue
      await kept.put(samples, [runId, seq])
      bytes += samples.byteLength
    }
    if (bytes > 0) await sizes.put(bytes, runId)
  } catch (error) {
    // What throws without ending the transaction would leave half of it.
    if (!tx.error) tx.abort()
    throw error
  }
  await done
}

function open(name: string): Promise<IDBPDatabase<Stores>> {
  return openDB<Stores>(name, 1, {
    upgrade(db) {
      db.createObjectStore('sounds')
      db.createObjectStore('sizes')
    },
    // A later edition in another tab may have to change the database: it must not wait for this one.
    blocking: (_current, _blocked, event) => (event.target as IDBDatabase).close(),
  })
}
