/** A database that is opened when first asked for something; whatever cannot be done in it is a rejection in one sentence. */

import type { DBSchema, IDBPDatabase } from 'idb'
import { whyNotStored } from './whyNotStored.ts'

/** `what` lies in it, as a person calls it: "your packs". */
export function clearlyIn<Stores extends DBSchema>(open: () => Promise<IDBPDatabase<Stores>>, what: string) {
  let opening: Promise<IDBPDatabase<Stores>> | undefined
  return async <T>(work: (db: IDBPDatabase<Stores>) => Promise<T>): Promise<T> => {
    try {
      opening ??= open()
      return await work(await opening)
    } catch (error) {
      // One that could not be opened, or was closed for a later edition, may open the next time.
      opening = undefined
      throw new Error(whyNotStored(error, what))
    }
  }
}
