/** The one file of the rooms of one process. What is deleted is overwritten. */

import { existsSync, rmdirSync } from 'node:fs'
import sqlite from 'node-sqlite3-wasm'
import { type Database, makeTables, type Query, type Row } from './database.ts'

/** `:memory:` keeps nothing. Throws where the file cannot be opened. */
export async function openSqlite(file: string): Promise<Database> {
  // A server that was killed may have left its lock; nobody else writes this file.
  if (existsSync(`${file}.lock`)) rmdirSync(`${file}.lock`)
  const db = new sqlite.Database(file)
  db.exec('PRAGMA secure_delete = ON; PRAGMA foreign_keys = ON')
  const query: Query = async (sql, ...values) => db.all(sql.replace(/\$(\d)/g, '?$1'), [...values]) as Row[]

  /** There is one connection: what comes during a transaction waits. */
  let line: Promise<unknown> = Promise.resolve()
  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const done = line.then(work)
    line = done.catch(() => undefined)
    return done
  }
  const together: Database['together'] = (work) =>
    inTurn(async () => {
      db.exec('BEGIN')
      try {
        const result = await work(query)
        db.exec('COMMIT')
        return result
      } catch (error) {
        db.exec('ROLLBACK')
        throw error
      }
    })

  const database: Database = {
    query: (sql, ...values) => inTurn(() => query(sql, ...values)),
    together,
    alone: together,
    close: () => inTurn(async () => db.close()),
  }
  if (db.get("SELECT 1 FROM pragma_table_info('documents') WHERE name = 'state'")) {
    db.close()
    throw new Error(`${file} is of an earlier edition of Otherseat: delete it, rooms last for a day at most`)
  }
  await makeTables(database)
  return database
}
