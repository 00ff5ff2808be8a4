/**
 * The documents of all rooms, live: who may read and write which, every update looked at before it is applied, all of it kept
 * in the database; and the instructor's orders, handed on to a trainee once their time has come.
 */

import type { IncomingMessage as HttpRequest } from 'node:http'
import { Hocuspocus, IncomingMessage, MessageType } from '@hocuspocus/server'
import type { WebSocket } from 'ws'
import * as Y from 'yjs'
import { accessTo, type DocumentKind, documentName, documentOf, ENTRIES, type RoomRole } from '../../room/documents.ts'
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
  type SeatEntry,
  withdrawnKey,
} from '../../room/entries.ts'
import type { RoomDatabase, SeatRow } from './database.ts'
import { Gate } from './gate.ts'
import { wrongUpdate } from './updates.ts'

/** Of the messages of y-protocols/sync. */
const STEP_ONE = 0
/** How long a change may wait to be kept, ms: whoever made it has it still. */
const KEPT_AFTER_MS = 200
const KEPT_AT_LATEST_MS = 1_000

export interface LinkParts {
  readonly database: RoomDatabase
  readonly now: () => number
  readonly memberBy: (token: string) => SeatRow | undefined
  readonly log: (line: string) => void
}

export interface Link {
  connect(socket: WebSocket, request: HttpRequest, address: string): void
  isLinked(room: string, role: RoomRole): boolean
  /** Somebody has joined or left: tells all of the room, and cuts off whose token is not good any more. */
  seatsChanged(room: string): void
  /** The room is no more. */
  cutOff(room: string): void
  close(): Promise<void>
}

export function createLink({ database, now, memberBy, log }: LinkParts): Link {
  /** Those that have shown a token, by it. */
  const gates = new Map<Gate, string | undefined>()
  const sizes = new Map<string, number>()

  const failed = (what: string) => (error: unknown) =>
    log(`failed: ${what}: ${error instanceof Error ? error.message : String(error)}`)

  const hocuspocus = new Hocuspocus({
    quiet: true,
    debounce: KEPT_AFTER_MS,
    maxDebounce: KEPT_AT_LATEST_MS,
    // Deleted entries are none: a document only grows.
    yDocOptions: { gc: true, gcFilter: () => true },
    async onAuthenticate({ token, documentName: name, context, connectionConfig }) {
      const gate: Gate = context.gate
      const member = memberBy(token)
      const asked = documentOf(name)
      const access = member && asked && accessTo(member, asked)
      // One socket is one member's.
      const isOther = gate.member !== undefined && gate.member.seat !== member?.seat
      if (!access || isOther) {
        gate.refuse(member ? `a ${member.role} asked for ${asked?.kind ?? 'an unknown document'}` : 'an unknown token')
        throw REFUSED
      }
      gate.member = member
      gates.set(gate, token)
      connectionConfig.readOnly = access === 'read'
      return { kind: asked.kind }
    },
    async onLoadDocument({ document, documentName: name }) {
      const state = database.document(name)
      sizes.set(name, state?.length ?? 0)
      if (state) Y.applyUpdate(document, state)
    },
    beforeHandleMessage({ update: data, document, documentName: name, context, connection }) {
      const wrong = wrongMessage(data, document, context.kind, connection.readOnly, sizes.get(name) ?? 0)
      if (wrong === undefined) return Promise.resolve()
      const { gate } = context as { readonly gate: Gate }
      gate.refuse(`${gate.member?.role}: ${wrong}`)
      // The socket is gone; this message must never be applied, and Hocuspocus would print what is thrown.
      return new Promise(() => undefined)
    },
    async onChange({ documentName: name, document, update }) {
      sizes.set(name, (sizes.get(name) ?? 0) + update.length)
      const asked = documentOf(name)
      if (asked?.kind === 'desk' || asked?.kind === 'log')
        await handOn(asked.room, document, asked.seat).catch(failed('an order was not handed on'))
    },
    async onStoreDocument({ documentName: name, document }) {
      const asked = documentOf(name)
      try {
        if (asked) database.keepDocument(name, asked.room, Y.encodeStateAsUpdate(document))
      } catch (error) {
        failed('a document was not kept')(error)
      }
    },
    async afterUnloadDocument({ documentName: name }) {
      sizes.delete(name)
    },
  })

  let line: Promise<void> = Promise.resolve()
  function inTurn(work: () => void): void {
    line = line.then(() => {
      work()
      return new Promise((done) => setImmediate(done))
    })
  }

  /** Also of one that nobody has open; not to be changed. */
  function documentNow(name: string): Y.Doc {
    const open = hocuspocus.documents.get(name)
    if (open) return open
    const document = new Y.Doc()
    const state = database.document(name)
    if (state) Y.applyUpdate(document, state)
    return document
  }

  async function add(name: string, entries: readonly (readonly [string, object])[]): Promise<void> {
    if (entries.length === 0) return
    const own = await hocuspocus.openDirectConnection(name)
    try {
      await own.transact((document) => {
        const map = document.getMap(ENTRIES)
        for (const [key, value] of entries) if (!map.has(key)) map.set(key, JSON.stringify(value))
      })
    } finally {
      await own.disconnect()
    }
  }

  /** What is due goes to each seat: orders whose place its log has come to, marks and grades that are shown. */
  async function handOn(room: string, changed: Y.Doc, logOf: string | undefined): Promise<void> {
    const desk = logOf === undefined ? changed : documentNow(documentName({ room, kind: 'desk' }))
    const entries = desk.getMap<string>(ENTRIES)
    const orders = readAll<Order>(entries, 'order/').filter(({ id, seat }) => {
      return (logOf === undefined || seat === logOf) && !entries.has(withdrawnKey(id))
    })
    const due = orders.filter((order) => isDue(room, order, logOf === undefined ? undefined : changed))
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
      const there = documentNow(name).getMap(ENTRIES)
      await add(name, [
        ...due
          .filter((one) => one.seat === seat && !there.has(orderKey(one.id)))
          .map((one) => [orderKey(one.id), one] as const),
        ...noted.filter(([key, one]) => one.seat === seat && !there.has(key)),
      ])
    }
  }

  function isDue(room: string, { at, seat, runId }: Order, log?: Y.Doc): boolean {
    if (at === undefined) return true
    const document = log ?? documentNow(documentName({ room, kind: 'log', seat }))
    return lastEntry(document.getMap<string>(ENTRIES), runId)?.at?.includes(at) ?? false
  }

  return {
    connect(socket, request, address) {
      const refused = (why: string) => log(`refused ${address}: ${why}`)
      const gate = new Gate({ socket, now, inTurn, refused })
      gates.set(gate, undefined)
      gate.on('close', () => gates.delete(gate))
      // What Hocuspocus asks of a socket is what the gate has.
      hocuspocus.handleConnection(gate as unknown as WebSocket, request, { gate })
    },
    isLinked: (room, role) => [...gates.keys()].some(({ member }) => member?.room === room && member.role === role),
    seatsChanged(room) {
      for (const [gate, token] of gates)
        if (gate.member?.room === room && token !== undefined && !memberBy(token)) gate.close(1000)
      const seats = database.seats(room).filter(({ role }) => role === 'trainee')
      void add(
        documentName({ room, kind: 'seats' }),
        seats.map(({ seat, name, joinedAt }): [string, SeatEntry] => [seat, { name, joinedAt }]),
      ).catch(failed('the seats of a room were not told'))
    },
    cutOff(room) {
      for (const gate of gates.keys()) if (gate.member?.room === room) gate.close(1000)
    },
    async close() {
      hocuspocus.closeConnections()
      // What waits to be kept is kept now.
      for (const [name, document] of hocuspocus.documents) {
        const asked = documentOf(name)
        if (asked) database.keepDocument(name, asked.room, Y.encodeStateAsUpdate(document))
      }
    },
  }
}

/** Without a message Hocuspocus prints nothing. */
const REFUSED = { reason: 'permission-denied' }

/** Why a message may not be handled. */
function wrongMessage(
  data: Uint8Array,
  document: Y.Doc,
  kind: DocumentKind,
  isReadOnly: boolean,
  size: number,
): string | undefined {
  try {
    const message = new IncomingMessage(data)
    message.readVarString()
    const type = message.readVarUint()
    if (type !== MessageType.Sync && type !== MessageType.SyncReply) return undefined
    const step = message.readVarUint()
    const payload = message.readVarUint8Array()
    if (step === STEP_ONE) {
      Y.decodeStateVector(payload)
      return undefined
    }
    if (!isReadOnly) return wrongUpdate(document, kind, size, payload)
    const { structs, ds } = Y.decodeUpdate(payload)
    const isEmpty = structs.every(({ id, length }) => id.clock + length <= Y.getState(document.store, id.client))
    return isEmpty && ds.clients.size === 0 ? undefined : `writes to the ${kind}`
  } catch {
    return 'a message cannot be read'
  }
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
