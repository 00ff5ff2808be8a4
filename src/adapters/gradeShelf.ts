/** Grades of recorded runs, in a database of their own: one's own, and those of others beside them. */

import { type DBSchema, openDB } from 'idb'
import type { GradeShelf, KeptSheet } from '../ports.ts'
import { clearlyIn } from './clearly.ts'

interface Stores extends DBSchema {
  /** `by` is empty for one's own. */
  sheets: { key: [runId: string, by: string]; value: KeptSheet }
}

/** Opened when first asked for something. */
export function createGradeShelf(name = 'otherseat-grades'): GradeShelf {
  const clearly = clearlyIn(() => {
    return openDB<Stores>(name, 1, {
      upgrade: (db) => void db.createObjectStore('sheets'),
      // A later edition in another tab may have to change the database: it must not wait for this one.
      blocking: (_current, _blocked, event) => (event.target as IDBDatabase).close(),
    })
  }, 'the grades')
  return {
    all: () => clearly((db) => db.getAll('sheets')),
    put: (sheet) =>
      clearly(async (db) => void (await db.put('sheets', sheet, [sheet.runId, sheet.isOwn ? '' : sheet.by]))),
    // An array sorts after every text, so this spans all sheets of the run.
    deleteOf: (runId) => clearly((db) => db.delete('sheets', IDBKeyRange.bound([runId], [runId, []]))),
  }
}
