/** The one file of the rooms: codes, who has joined, and the documents. What is deleted is overwritten. */

import { existsSync, rmdirSync } from 'node:fs'
import sqlite from 'node-sqlite3-wasm'
import type { Member, RoomRole } from '../../room/documents.ts'

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

export interface RoomDatabase {
  addRoom(room: RoomRow): void
  rooms(): readonly RoomRow[]
  /** With its seats and documents. */
  deleteRoom(id: string): void
  addSeat(tokenHash: string, seat: SeatRow): void
  seatOf(tokenHash: string): SeatRow | undefined
  seats(room: string): readonly SeatRow[]
  deleteSeat(tokenHash: string): void
  deleteRole(room: string, role: RoomRole): void
  document(name: string): Uint8Array | undefined
  /** Of a room that is there still. */
  keepDocument(name: string, room: string, state: Uint8Array): void
  close(): void
}

const TABLES = `
  PRAGMA secure_delete = ON;
  CREATE TABLE IF NOT EXISTS rooms (id TEXT PRIMARY KEY, code TEXT, code_until INTEGER, until INTEGER, own INTEGER);
  CREATE TABLE IF NOT EXISTS seats (token TEXT PRIMARY KEY, room TEXT, role TEXT, seat TEXT, name TEXT, joined INTEGER);
  CREATE TABLE IF NOT EXISTS documents (name TEXT PRIMARY KEY, room TEXT, state BLOB);
`

type Row = Readonly<Record<string, unknown>>

/** `:memory:` keeps nothing. Throws where the file cannot be opened. */
export function openDatabase(file: string): RoomDatabase {
  // A server that was killed may have left its lock; nobody else writes this file.
  if (existsSync(`${file}.lock`)) rmdirSync(`${file}.lock`)
  const db = new sqlite.Database(file)
  db.exec(TABLES)
  const rows = (sql: string, ...values: (string | number | Uint8Array)[]) => db.all(sql, values) as Row[]

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

  return {
    addRoom: ({ id, code, codeUntil, until, isOwn }) =>
      void db.run('INSERT INTO rooms VALUES (?, ?, ?, ?, ?)', [id, code, codeUntil, until, isOwn ? 1 : 0]),
    rooms: () => rows('SELECT * FROM rooms').map(roomOf),
    deleteRoom(id) {
      for (const [table, column] of [
        ['documents', 'room'],
        ['seats', 'room'],
        ['rooms', 'id'],
      ])
        db.run(`DELETE FROM ${table} WHERE ${column} = ?`, [id])
    },
    addSeat: (token, { room, role, seat, name, joinedAt }) =>
      void db.run('INSERT INTO seats VALUES (?, ?, ?, ?, ?, ?)', [token, room, role, seat, name, joinedAt]),
    seatOf: (token) => rows('SELECT * FROM seats WHERE token = ?', token).map(seatOf)[0],
    seats: (room) => rows('SELECT * FROM seats WHERE room = ? ORDER BY joined', room).map(seatOf),
    deleteSeat: (token) => void db.run('DELETE FROM seats WHERE token = ?', [token]),
    deleteRole: (room, role) => void db.run('DELETE FROM seats WHERE room = ? AND role = ?', [room, role]),
    document(name) {
      const [row] = rows('SELECT state FROM documents WHERE name = ?', name)
      return row?.state instanceof Uint8Array ? row.state : undefined
    },
    keepDocument: (name, room, state) =>
      void db.run('INSERT OR REPLACE INTO documents SELECT ?, id, ? FROM rooms WHERE id = ?', [name, state, room]),
    close: () => db.close(),
  }
}
