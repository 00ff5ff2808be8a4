/** What is stored of rooms, by either database: the same holds for both. */

import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import * as Y from 'yjs'
import type { Database } from '../../../src/build/room/database.ts'
import { openPostgres } from '../../../src/build/room/postgres.ts'
import { openSqlite } from '../../../src/build/room/sqlite.ts'
import { createStore, type RoomRow, type RoomStore, type SeatRow } from '../../../src/build/room/store.ts'
import { type OwnDatabases, startDatabases } from './databases.ts'

let databases: OwnDatabases
beforeAll(async () => {
  databases = await startDatabases()
})
afterAll(() => databases.close())

const NOW = 1_800_000_000_000
const room = (id: string, more: Partial<RoomRow> = {}): RoomRow => ({
  ...{ id, code: `C-${id}`, codeUntil: NOW + 1_000, until: NOW + 2_000, isOwn: false },
  ...more,
})
const seat = (id: string, more: Partial<SeatRow> = {}): SeatRow => ({
  ...{ room: 'r', role: 'trainee', seat: id, name: `Name of ${id}`, joinedAt: NOW },
  ...more,
})
const written = (...keys: readonly string[]) => {
  const document = new Y.Doc()
  for (const key of keys) document.getMap('entries').set(key, `text of ${key}`)
  return document
}
const read = (updates: readonly Uint8Array[]) => {
  const document = new Y.Doc()
  for (const update of updates) Y.applyUpdate(document, update)
  return document.getMap('entries').toJSON()
}

describe.each<readonly [name: string, open: () => Promise<Database>]>([
  ['SQLite', () => openSqlite(':memory:')],
  ['PostgreSQL', async () => openPostgres((await databases.fresh()).postgres, () => undefined)],
])('%s', (_, open) => {
  let database: Database
  let store: RoomStore
  beforeAll(async () => {
    database = await open()
    store = createStore(database)
    await store.addRoom(room('r'), 100)
  })
  afterAll(() => store.close())

  test('a room is found by its code while that holds, and ids and times come back as they were', async () => {
    expect(await store.roomByCode('C-r', NOW)).toEqual(room('r'))
    expect(await store.roomByCode('C-r', NOW + 1_000)).toBeUndefined()
    expect(await store.roomByCode("C-r' OR '1'='1", NOW)).toBeUndefined()
  })

  test('no two rooms have a code, and there are no more than may be', async () => {
    expect(await store.addRoom(room('other', { code: 'C-r' }), 100)).toBe('taken')
    expect(await store.addRoom(room('other'), 1)).toBe('full')
    expect(await store.roomIds()).toEqual(new Set(['r']))
  })

  test('the own room is the one whose code holds, made once by those who ask at the same time', async () => {
    const asked = ['a', 'b', 'c'].map((id) => store.ownRoom(NOW, room(id, { isOwn: true })))
    const ids = new Set((await Promise.all(asked)).map(({ id }) => id))
    expect(ids.size).toBe(1)
    expect((await store.ownRoom(NOW + 1_000, room('later', { isOwn: true }))).id).toBe('later')
  })

  test('seats: so many of a role and no more, one in place of another, and any name', async () => {
    const name = `Robert'); DROP TABLE seats;-- "\\ $1 ?1 ü 飞`
    expect(await store.addSeat('t1', seat('1', { name }), 2)).toBe(true)
    const both = await Promise.all([store.addSeat('t2', seat('2'), 2), store.addSeat('t3', seat('3'), 2)])
    expect(both.toSorted()).toEqual([false, true])
    expect(await store.seatOf('t1', NOW)).toEqual(seat('1', { name }))
    expect(await store.seatOf('t1', NOW + 2_000)).toBeUndefined()
    await store.addSeat('i1', seat('4', { role: 'instructor' }), undefined)
    await store.addSeat('i2', seat('5', { role: 'instructor' }), undefined)
    expect(await store.seatOf('i1', NOW)).toBeUndefined()
    expect((await store.seats('r')).map(({ role }) => role).toSorted()).toEqual(['instructor', 'trainee', 'trainee'])
    await store.deleteSeat('i2')
    expect(await store.seatOf('i2', NOW)).toBeUndefined()
    expect(await store.addSeat('t9', seat('9', { room: 'nowhere' }), 2)).toBe(false)
  })

  test('a document grows by what is new in each, whoever keeps it and in whatever order', async () => {
    const [one, other] = [written('a', 'b'), written('c')]
    await Promise.all([store.keepDocument('r/log/1', 'r', one), store.keepDocument('r/log/1', 'r', other)])
    one.getMap('entries').set('d', 'text of d')
    await store.keepDocument('r/log/1', 'r', one)
    const kept = await store.document('r/log/1')
    expect(read(kept)).toEqual(written('a', 'b', 'c', 'd').getMap('entries').toJSON())
    // What is there already is not kept again, by one who knows all as little as by one who knows a part.
    Y.applyUpdate(other, Y.encodeStateAsUpdate(one))
    await store.keepDocument('r/log/1', 'r', other)
    await store.keepDocument('r/log/1', 'r', written())
    expect((await store.document('r/log/1')).length).toBe(kept.length)
  })

  test('many small updates become one, and nothing is lost of those that come meanwhile', async () => {
    const document = written('0')
    for (let at = 0; at < 150; at++) {
      document.getMap('entries').set(String(at), `text of ${at}`)
      await store.keepDocument('r/log/2', 'r', document)
    }
    document.getMap('entries').set('last', 'text of last')
    const [first] = await Promise.all([store.document('r/log/2'), store.keepDocument('r/log/2', 'r', document)])
    expect(first.length).toBeLessThan(3)
    expect(Object.keys(read(await store.document('r/log/2'))).length).toBe(151)
  })

  test('a room that is deleted, or over, is gone with all of it, and nothing is kept of it any more', async () => {
    await store.addRoom(room('gone'), 100)
    await store.addSeat('g1', seat('g', { room: 'gone' }), 2)
    await store.keepDocument('gone/desk', 'gone', written('a'))
    const one = await Promise.all([store.deleteRoom('gone'), store.deleteRoom('gone')])
    expect(one.toSorted()).toEqual([false, true])
    await store.keepDocument('gone/desk', 'gone', written('b'))
    expect([await store.document('gone/desk'), await store.seats('gone')]).toEqual([[], []])
    for (const table of ['seats', 'documents'])
      expect(await database.query(`SELECT * FROM ${table} WHERE room = 'gone'`)).toEqual([])
    expect(await database.query(`SELECT * FROM updates WHERE document = 'gone/desk'`)).toEqual([])
    expect((await store.deleteOver(NOW + 2_000)).includes('r')).toBe(true)
    expect(await store.deleteOver(NOW + 2_000)).toEqual([])
  })
})

test('several processes that start at the same time make the tables once, and the next finds them', async () => {
  const { postgres } = await databases.fresh()
  const open = () => openPostgres(postgres, () => undefined)
  const opened = await Promise.all([open(), open(), open()])
  await opened[0]?.query('INSERT INTO steps VALUES (99)')
  for (const one of opened) await one.close()
  await expect(open()).rejects.toThrow('a later edition')
})
