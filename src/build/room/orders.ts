/** What the server itself writes into documents: orders whose time has come, marks and grades that are shown, seats. */

import { createHash } from 'node:crypto'
import type { Hocuspocus } from '@hocuspocus/server'
import * as Y from 'yjs'
import { documentName, ENTRIES } from '../../room/documents.ts'
import {
  gradeKey,
  type LogEntry,
  type MarksShown,
  markKey,
  type Order,
  orderKey,
  parsed,
  type RoomGrade,
  type RoomMark,
  withdrawnKey,
} from '../../room/entries.ts'
import type { RoomStore } from './store.ts'

/** By whom a change was made that no client has sent. */
const SERVER = 'server'

export interface OrdersParts {
  readonly store: RoomStore
  readonly documents: Pick<Hocuspocus, 'documents' | 'openDirectConnection'>
}

export interface Orders {
  /** Where a key is free. */
  add(name: string, entries: readonly (readonly [key: string, value: object])[]): Promise<void>
  /** What is due goes to each seat, after a desk has changed, or the log of this seat. */
  handOn(room: string, changed: Y.Doc, logOf: string | undefined): Promise<void>
}

export function createOrders({ store, documents }: OrdersParts): Orders {
  /** Also of one that nobody has open; not to be changed. */
  async function documentNow(name: string): Promise<Y.Doc> {
    const open = documents.documents.get(name)
    if (open) return open
    const document = new Y.Doc()
    for (const update of await store.document(name)) Y.applyUpdate(document, update)
    return document
  }

  async function add(name: string, entries: readonly (readonly [string, object])[]): Promise<void> {
    if (entries.length === 0) return
    const own = await documents.openDirectConnection(name)
    try {
      const { document } = own
      const map = document?.getMap(ENTRIES)
      for (const [key, value] of entries)
        if (document && !map?.has(key)) Y.applyUpdate(document, serverEntry(name, key, JSON.stringify(value)), SERVER)
    } finally {
      await own.disconnect()
    }
  }

  /** What is due goes to each seat: orders whose place its log has come to, marks and grades that are shown. */
  async function handOn(room: string, changed: Y.Doc, logOf: string | undefined): Promise<void> {
    const desk = logOf === undefined ? changed : await documentNow(deskOf(room))
    const entries = desk.getMap<string>(ENTRIES)
    const orders = readAll<Order>(entries, 'order/').filter(({ id, seat }) => {
      return (logOf === undefined || seat === logOf) && !entries.has(withdrawnKey(id))
    })
    const due: Order[] = []
    for (const order of orders) if (await isDue(room, order, logOf === undefined ? undefined : changed)) due.push(order)
    const shown = logOf === undefined ? readAll<MarksShown>(entries, 'shown/') : []
    const isShown = (one: RoomMark | RoomGrade) =>
      shown.some(({ seat, runId }) => one.seat === seat && one.runId === runId)
    const noted = [
      ...readAll<RoomMark>(entries, 'mark/').map((one) => [markKey(one.id), one] as const),
      ...readAll<RoomGrade>(entries, 'grade/').map((one) => [gradeKey(one.id), one] as const),
    ].filter(([, one]) => isShown(one))
    const seats = new Set([...due, ...noted.map(([, one]) => one)].map(({ seat }) => seat))
    for (const seat of seats) {
      const name = documentName({ room, kind: 'orders', seat })
      const there = (await documentNow(name)).getMap(ENTRIES)
      await add(name, [
        ...due
          .filter((one) => one.seat === seat && !there.has(orderKey(one.id)))
          .map((one) => [orderKey(one.id), one] as const),
        ...noted.filter(([key, one]) => one.seat === seat && !there.has(key)),
      ])
    }
  }

  async function isDue(room: string, { at, seat, runId }: Order, log?: Y.Doc): Promise<boolean> {
    if (at === undefined) return true
    const document = log ?? (await documentNow(documentName({ room, kind: 'log', seat })))
    return lastEntry(document.getMap<string>(ENTRIES), runId)?.at?.includes(at) ?? false
  }

  return { add, handOn }
}

export const deskOf = (room: string) => documentName({ room, kind: 'desk' })

/** The same in every process, down to its id: added by two of them, it is there once. */
function serverEntry(name: string, key: string, text: string): Uint8Array {
  const document = new Y.Doc()
  document.clientID = createHash('sha256').update(`${name} ${key}`).digest().readUIntBE(0, 6)
  document.getMap(ENTRIES).set(key, text)
  return Y.encodeStateAsUpdate(document)
}

function readAll<T>(entries: Y.Map<string>, head: string): T[] {
  return [...entries].flatMap(([key, value]) => {
    const entry = key.startsWith(head) ? parsed(value) : undefined
    return entry === undefined ? [] : [entry as T]
  })
}

/** Of a run, what is known of its last event. */
function lastEntry(entries: Y.Map<string>, runId: string): LogEntry | undefined {
  let last = -1
  for (const key of entries.keys()) if (key.startsWith(`${runId}/`)) last = Math.max(last, Number(key.split('/')[1]))
  const text = entries.get(`${runId}/${last}`)
  return text === undefined ? undefined : (parsed(text) as LogEntry)
}
