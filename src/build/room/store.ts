/** What is stored of rooms: codes, who has joined, and the documents. The same statements for both databases. */

import * as Y from 'yjs'
import type { Member, RoomRole } from '../../room/documents.ts'
import type { Database, Query, Row } from './database.ts'

export interface RoomRow {
  readonly id: string
  readonly code: string
  readonly codeUntil: number
  readonly until: number
  /** The server's own, whose code it prints. */
  readonly isOwn: boolean
}

export interface SeatRow extends Member {
  readonly name: string
  readonly joinedAt: number
}

export interface RoomStore {
  /** Nothing is added where there are so many already, or one with this code. */
  addRoom(room: RoomRow, most: number): Promise<'added' | 'full' | 'taken'>
  /** The server's own room whose code still holds; else this one, added. */
  ownRoom(now: number, otherwise: RoomRow): Promise<RoomRow>
  roomByCode(code: string, now: number): Promise<RoomRow | undefined>
  roomIds(): Promise<ReadonlySet<string>>
  /** With its seats and documents. False where it is gone already. */
  deleteRoom(id: string): Promise<boolean>
  /** Deletes those whose time is over, and gives their ids. */
  deleteOver(now: number): Promise<readonly string[]>
  /** False, and nothing added, where so many have this role already; `most` undefined: in place of whoever has it. */
  addSeat(tokenHash: string, seat: SeatRow, most: number | undefined): Promise<boolean>
  /** Of a room that is not over. */
  seatOf(tokenHash: string, now: number): Promise<SeatRow | undefined>
  seats(room: string): Promise<readonly SeatRow[]>
  deleteSeat(tokenHash: string): Promise<void>
  /** Updates, to be applied one after another. */
  document(name: string): Promise<readonly Uint8Array[]>
  /** Adds what is stored of it and lacks; nothing where its room is gone. The document has no deletions. */
  keepDocument(name: string, room: string, document: Y.Doc): Promise<void>
  close(): Promise<void>
}

/** More updates of a document are made one when it is read. */
const MOST_UPDATES = 100

export function createStore(database: Database): RoomStore {
  const { query, together, alone } = database

  const addRoom = (by: Query, { id, code, codeUntil, until, isOwn }: RoomRow) =>
    by(
      'INSERT INTO rooms VALUES ($1, $2, $3, $4, $5) ON CONFLICT DO NOTHING RETURNING id',
      ...[id, code, codeUntil, until, isOwn ? 1 : 0],
    )

  /** Nobody else changes a row that was touched until this is over. */
  async function touched(by: Query, name: string): Promise<{ vector: Uint8Array; updates: number } | undefined> {
    const [row] = await by('UPDATE documents SET updates = updates WHERE name = $1 RETURNING vector, updates', name)
    return row && { vector: row.vector as Uint8Array, updates: Number(row.updates) }
  }

  const updatesOf = async (by: Query, name: string) =>
    (await by('SELECT bytes FROM updates WHERE document = $1 ORDER BY number', name)).map(
      ({ bytes }) => bytes as Uint8Array,
    )

  return {
    addRoom: (room, most) =>
      alone(async (by) => {
        const [row] = await by('SELECT COUNT(*) AS there FROM rooms')
        if (Number(row?.there) >= most) return 'full'
        return (await addRoom(by, room)).length > 0 ? 'added' : 'taken'
      }),
    ownRoom: (now, otherwise) =>
      alone(async (by) => {
        const sql = 'SELECT * FROM rooms WHERE own = 1 AND code_until > $1 ORDER BY until DESC LIMIT 1'
        const [row] = await by(sql, now)
        if (!row) await addRoom(by, otherwise)
        return row ? roomOf(row) : otherwise
      }),
    async roomByCode(code, now) {
      const [row] = await query('SELECT * FROM rooms WHERE code = $1 AND code_until > $2', code, now)
      return row && roomOf(row)
    },
    roomIds: async () => new Set((await query('SELECT id FROM rooms')).map(({ id }) => String(id))),
    deleteRoom: async (id) => (await query('DELETE FROM rooms WHERE id = $1 RETURNING id', id)).length > 0,
    deleteOver: async (now) =>
      (await query('DELETE FROM rooms WHERE until <= $1 RETURNING id', now)).map(({ id }) => String(id)),
    addSeat: (token, { room, role, seat, name, joinedAt }, most) =>
      together(async (by) => {
        const [there] = await by('UPDATE rooms SET own = own WHERE id = $1 RETURNING id', room)
        if (!there) return false
        if (most === undefined) await by('DELETE FROM seats WHERE room = $1 AND role = $2', room, role)
        const [row] = await by('SELECT COUNT(*) AS taken FROM seats WHERE room = $1 AND role = $2', room, role)
        if (most !== undefined && Number(row?.taken) >= most) return false
        await by('INSERT INTO seats VALUES ($1, $2, $3, $4, $5, $6)', token, room, role, seat, name, joinedAt)
        return true
      }),
    async seatOf(token, now) {
      const sql = 'SELECT seats.* FROM seats JOIN rooms ON rooms.id = seats.room WHERE token = $1 AND until > $2'
      const [row] = await query(sql, token, now)
      return row && seatOf(row)
    },
    seats: async (room) => (await query('SELECT * FROM seats WHERE room = $1 ORDER BY joined', room)).map(seatOf),
    async deleteSeat(token) {
      await query('DELETE FROM seats WHERE token = $1', token)
    },
    async document(name) {
      const updates = await updatesOf(query, name)
      if (updates.length <= MOST_UPDATES) return updates
      return together(async (by) => {
        const row = await touched(by, name)
        if (!row) return []
        const merged = Y.mergeUpdates(await updatesOf(by, name))
        await by('DELETE FROM updates WHERE document = $1', name)
        await by('INSERT INTO updates VALUES ($1, $2, $3)', name, row.updates, merged)
        return [merged]
      })
    },
    async keepDocument(name, room, document) {
      const [there] = await query('SELECT vector FROM documents WHERE name = $1', name)
      if (there && !newer(document, there.vector as Uint8Array)) return
      await together(async (by) => {
        if (!there) {
          const sql = 'INSERT INTO documents SELECT $1, id, $2, 0 FROM rooms WHERE id = $3 ON CONFLICT DO NOTHING'
          await by(sql, name, Y.encodeStateVector(new Y.Doc()), room)
        }
        const row = await touched(by, name)
        const more = row && newer(document, row.vector)
        if (!more) return
        const { updates } = row
        await by('INSERT INTO updates VALUES ($1, $2, $3)', name, updates + 1, more.update)
        await by('UPDATE documents SET vector = $2, updates = $3 WHERE name = $1', name, more.vector, updates + 1)
      })
    },
    close: () => database.close(),
  }
}

/** What a document has that is behind the vector, and the vector of both; undefined where it has nothing. */
function newer(document: Y.Doc, vector: Uint8Array): { update: Uint8Array; vector: Uint8Array } | undefined {
  const reached = Y.decodeStateVector(vector)
  const more = [...Y.decodeStateVector(Y.encodeStateVector(document))].filter(
    ([client, clock]) => clock > (reached.get(client) ?? 0),
  )
  if (more.length === 0) return undefined
  for (const [client, clock] of more) reached.set(client, clock)
  return { update: Y.encodeStateAsUpdate(document, vector), vector: Y.encodeStateVector(reached) }
}

const roomOf = (row: Row): RoomRow => ({
  id: String(row.id),
  code: String(row.code),
  codeUntil: Number(row.code_until),
  until: Number(row.until),
  isOwn: Number(row.own) === 1,
})

const seatOf = (row: Row): SeatRow => ({
  room: String(row.room),
  role: row.role as RoomRole,
  seat: String(row.seat),
  name: String(row.name),
  joinedAt: Number(row.joined),
})
