/**
 * The log in the browser's database. An event counts as stored when its transaction is complete with
 * strict durability, so that it outlives a crash; whatever else happens is a rejection that says why.
 */

import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import type { RunArchive, RunSummary } from '../../ports.ts'
import { whyNotStored } from '../whyNotStored.ts'
import { newestFirst, newestUnfinished, outOfPlace, summarise } from './summary.ts'

interface Stores extends DBSchema {
  events: { key: [runId: string, seq: number]; value: RunEvent }
  runs: { key: string; value: RunSummary }
}

/** Rejects where the browser keeps nothing (private window, storage off or full). */
export async function createBrowserLog(name = 'otherseat'): Promise<RunArchive> {
  const db = await open(name)
  await probe(db)

  async function append(event: RunEvent): Promise<void> {
    try {
      await store(db, event)
    } catch (error) {
      throw new Error(whyNotStored(error, 'the log'))
    }
  }

  const runs = async () => newestFirst(await db.getAll('runs'))
  return {
    append,
    // An array sorts after every number, so this spans all events of the run.
    read: (runId) => db.getAll('events', IDBKeyRange.bound([runId], [runId, []])),
    unfinished: async () => newestUnfinished(await runs()),
    runs,
    async putAway(runId) {
      const tx = db.transaction('runs', 'readwrite')
      const run = await tx.store.get(runId)
      if (run) await tx.store.put({ ...run, ended: true })
      await tx.done
    },
  }
}

async function open(name: string): Promise<IDBPDatabase<Stores>> {
  try {
    return await openDB<Stores>(name, 1, {
      upgrade(db) {
        db.createObjectStore('events', { keyPath: ['runId', 'seq'] })
        db.createObjectStore('runs', { keyPath: 'runId' })
      },
      // A later edition in another tab may have to change the database: it must not wait for this one.
      blocking: (_current, _blocked, event) => (event.target as IDBDatabase).close(),
    })
  } catch (error) {
    throw new Error(whyNotStored(error, 'the log'))
  }
}

/** Some private windows open a database and refuse to write; better found out before a run than during it. */
async function probe(db: IDBPDatabase<Stores>): Promise<void> {
  try {
    const tx = db.transaction('runs', 'readwrite')
    await tx.store.put({ runId: '', pack: '', startedAt: 0, ended: true })
    await tx.store.delete('')
    await tx.done
  } catch (error) {
    throw new Error(whyNotStored(error, 'the log'))
  }
}

async function store(db: IDBPDatabase<Stores>, event: RunEvent): Promise<void> {
  const tx = db.transaction(['events', 'runs'], 'readwrite', { durability: 'strict' })
  const done = tx.done
  // The error that caused an abort is the one to report; `done` would reject with a second one.
  done.catch(() => undefined)
  const events = tx.objectStore('events')
  const last = await events.openKeyCursor(IDBKeyRange.bound([event.runId], [event.runId, []]), 'prev')
  const wrong = outOfPlace(last ? last.key[1] + 1 : 0, event)
  if (wrong) {
    tx.abort()
    throw new Error(wrong)
  }
  await events.add(event)
  const runs = tx.objectStore('runs')
  const summary = summarise(await runs.get(event.runId), event)
  if (summary) await runs.put(summary)
  await done
}
