/**
 * The log in the browser's database. An event counts as stored when its transaction is complete with
 * strict durability, so that it outlives a crash; whatever else happens is a rejection that says why.
 */

import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import { type RunSummary, summarise } from '../../kernel/run/core/summary.ts'
import type { RunArchive, StoredRun } from '../../ports.ts'
import { whyNotStored } from '../whyNotStored.ts'
import { newestFirst, newestUnfinished, outOfPlace } from './summary.ts'

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
    read: (runId) => db.getAll('events', allOf(runId)),
    unfinished: async () => newestUnfinished(await runs()),
    runs,
    async putAway(runId) {
      const tx = db.transaction('runs', 'readwrite')
      const run = await tx.store.get(runId)
      if (run) await tx.store.put({ ...run, ended: true })
      await tx.done
    },
    async keepSummary(summary) {
      const tx = db.transaction(['events', 'runs'], 'readwrite')
      const runs = tx.objectStore('runs')
      const there = await runs.get(summary.runId)
      const events = await tx.objectStore('events').count(allOf(summary.runId))
      if (there && events === summary.events) await runs.put({ ...summary, ended: there.ended || summary.ended })
      await tx.done
    },
    async take(runId) {
      const tx = db.transaction(['events', 'runs'], 'readwrite', { durability: 'strict' })
      const [stored, runs] = [tx.objectStore('events'), tx.objectStore('runs')]
      const [summary, events] = [await runs.get(runId), await stored.getAll(allOf(runId))]
      await stored.delete(allOf(runId))
      await runs.delete(runId)
      await tx.done
      return summary && { summary, events }
    },
    async put(run) {
      try {
        await putRun(db, run)
      } catch (error) {
        throw new Error(whyNotStored(error, 'the run'))
      }
    },
  }
}

/** An array sorts after every number, so this spans all events of the run. */
const allOf = (runId: string) => IDBKeyRange.bound([runId], [runId, []])

async function putRun(db: IDBPDatabase<Stores>, { summary, events }: StoredRun): Promise<void> {
  const tx = db.transaction(['events', 'runs'], 'readwrite', { durability: 'strict' })
  const done = tx.done
  // The error that caused an abort is the one to report; `done` would reject with a second one.
  done.catch(() => undefined)
  const stored = tx.objectStore('events')
  const there = await stored.count(allOf(summary.runId))
  try {
    // Async, so that one that throws leaves no other without a handler.
    await Promise.all(events.slice(there).map(async (event) => stored.add(event as RunEvent)))
    await tx.objectStore('runs').put(summary)
  } catch (error) {
    // What cannot be copied into the database throws without ending the transaction.
    if (!tx.error) tx.abort()
    throw error
  }
  await done
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
  const last = await events.openKeyCursor(allOf(event.runId), 'prev')
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
