/** What a store of rooms needs of a database. Two have it: SQLite for one process, PostgreSQL for several. */

export type Value = string | number | Uint8Array
export type Row = Readonly<Record<string, unknown>>
/** One statement; a value stands in it as its number: `$1`. Never put a value into the text. */
export type Query = (sql: string, ...values: readonly Value[]) => Promise<readonly Row[]>

export interface Database {
  readonly query: Query
  /** All of it is done, or nothing. */
  together<T>(work: (query: Query) => Promise<T>): Promise<T>
  /** So that no other process does the like meanwhile. */
  alone<T>(work: (query: Query) => Promise<T>): Promise<T>
  close(): Promise<void>
}

/**
 * Steps from an empty database to that of today, both databases' in one language; each is taken once and never changed again:
 * a change is a new step.
 */
const STEPS: readonly (readonly string[])[] = [
  [
    `CREATE TABLE rooms (
      id TEXT PRIMARY KEY, code TEXT NOT NULL UNIQUE, code_until BIGINT NOT NULL, until BIGINT NOT NULL, own INTEGER NOT NULL
    )`,
    `CREATE TABLE seats (
      token TEXT PRIMARY KEY, room TEXT NOT NULL REFERENCES rooms (id) ON DELETE CASCADE,
      role TEXT NOT NULL, seat TEXT NOT NULL, name TEXT NOT NULL, joined BIGINT NOT NULL
    )`,
    'CREATE INDEX seats_of_room ON seats (room)',
    `CREATE TABLE documents (
      name TEXT PRIMARY KEY, room TEXT NOT NULL REFERENCES rooms (id) ON DELETE CASCADE,
      vector BYTEA NOT NULL, updates BIGINT NOT NULL
    )`,
    'CREATE INDEX documents_of_room ON documents (room)',
    `CREATE TABLE updates (
      document TEXT NOT NULL REFERENCES documents (name) ON DELETE CASCADE,
      number BIGINT NOT NULL, bytes BYTEA NOT NULL, PRIMARY KEY (document, number)
    )`,
  ],
]

/** Makes the tables, or what they lack. Throws where a later Otherseat made them. */
export async function makeTables(database: Database): Promise<void> {
  await database.alone(async (query) => {
    await query('CREATE TABLE IF NOT EXISTS steps (number INTEGER PRIMARY KEY)')
    const [row] = await query('SELECT COUNT(*) AS taken FROM steps')
    const taken = Number(row?.taken)
    if (taken > STEPS.length) throw new Error('a later edition of Otherseat made its tables: start that one')
    for (const [at, step] of STEPS.entries()) {
      if (at < taken) continue
      for (const sql of step) await query(sql)
      await query('INSERT INTO steps VALUES ($1)', at + 1)
    }
  })
}
