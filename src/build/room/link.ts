/**
 * The documents of all rooms, live: who may read and write which, every update looked at before it is applied, all of it kept
 * in the database and the same in all processes.
 */

import type { IncomingMessage as HttpRequest } from 'node:http'
import {
  type Connection,
  type DirectConnection,
  type Document,
  Hocuspocus,
  IncomingMessage,
  OutgoingMessage,
} from '@hocuspocus/server'
import type { WebSocket } from 'ws'
import * as Y from 'yjs'
import { accessTo, documentName, documentOf } from '../../room/documents.ts'
import { type SeatEntry, wrongServerEntry } from '../../room/entries.ts'
import { Gate } from './gate.ts'
import { STEP_ONE, STEP_TWO, syncIn, wrongMessage } from './messages.ts'
import { createOrders, deskOf } from './orders.ts'
import type { Peers } from './peers.ts'
import { PEER, shareDocuments } from './shared.ts'
import type { RoomStore, SeatRow } from './store.ts'
import { GAP, newEntries, wrongUpdate } from './updates.ts'

/** How long a change may wait to be kept, ms: whoever made it has it still. */
const KEPT_AFTER_MS = 200
const KEPT_AT_LATEST_MS = 1_000
/** The same for one that another process took, and keeps unless it was killed. */
const KEPT_FOR_OTHERS_AFTER_MS = 3_000
const KEPT_FOR_OTHERS_AT_LATEST_MS = 10_000
/** Until a document that could not be kept is tried again. */
const AGAIN_MS = 2_000
/** The like failure is told again only after this. */
const TOLD_AGAIN_MS = 10_000

export interface LinkParts {
  readonly store: RoomStore
  readonly peers: Peers
  readonly now: () => number
  readonly memberBy: (token: string) => Promise<SeatRow | undefined>
  /** What other processes have told may have been missed. */
  readonly missed: () => void
  readonly log: (line: string) => void
}

export interface Link {
  connect(socket: WebSocket, request: HttpRequest, address: string): void
  /** Somebody has joined or left: tells all of the room, and cuts off whose token is not good any more. */
  seatsChanged(room: string): void
  /** The room is no more. */
  cutOff(room: string): void
  /** Cuts off whoever is in a room that is no more. */
  cutOffOthers(rooms: ReadonlySet<string>): void
  close(): Promise<void>
}

export function createLink({ store, peers, now, memberBy, missed, log }: LinkParts): Link {
  /** Those that have shown a token, by it. */
  const gates = new Map<Gate, string | undefined>()
  const sizes = new Map<string, number>()
  /** Of each log that is open, the desk of its room: so an order meets the place that it waits for, wherever either came in. */
  const desks = new Map<string, DirectConnection>()
  /**
   * What a page writes as soon as it is linked again may come before it was asked for what this process has missed: so many of its
   * changes were left aside, until it has answered. They come with the answer.
   */
  const tooEarly = new WeakMap<Connection, number | 'answered'>()
  const toldAt = new Map<string, number>()
  let isClosing = false

  const failed = (what: string) => (error: unknown) => {
    if (isClosing || performance.now() - (toldAt.get(what) ?? Number.NEGATIVE_INFINITY) < TOLD_AGAIN_MS) return
    toldAt.set(what, performance.now())
    log(`failed: ${what}: ${error instanceof Error ? error.message : String(error)}`)
  }

  const sharing =
    peers.bus &&
    shareDocuments({
      bus: peers.bus,
      wrong(name, document, update) {
        const kind = documentOf(name)?.kind
        if (!kind) return 'an unknown document'
        return wrongUpdate({ document, kind, size: sizes.get(name) ?? 0, update, wrong: wrongServerEntry })
      },
      isPresenceOf: (name) => documentOf(name)?.kind === 'log',
      refused: (why) => log(`refused another process: ${why}`),
      failed: failed('a change was not told to the other processes'),
    })

  const hocuspocus = new Documents({
    quiet: true,
    debounce: KEPT_AFTER_MS,
    maxDebounce: KEPT_AT_LATEST_MS,
    // Deleted entries are none: a document only grows.
    yDocOptions: { gc: true, gcFilter: () => true },
    extensions: sharing ? [sharing.extension] : [],
    async onAuthenticate({ token, documentName: name, context, connectionConfig }) {
      const gate: Gate = context.gate
      const member = await memberBy(token).catch((error) => {
        failed('a token was not looked up')(error)
        gate.drop()
        throw REFUSED
      })
      const asked = documentOf(name)
      const access = member && asked && accessTo(member, asked)
      // One socket is one member's.
      const isOther = gate.member !== undefined && gate.member.seat !== member?.seat
      if (!access || isOther) {
        gate.refuse(member ? `a ${member.role} asked for ${asked?.kind ?? 'an unknown document'}` : 'an unknown token')
        throw REFUSED
      }
      // It may be gone by now.
      if (!gates.has(gate)) throw REFUSED
      if (!gate.member && member.role === 'instructor') peers.linked(member.room)
      gate.member = member
      gates.set(gate, token)
      connectionConfig.readOnly = access === 'read'
      return { kind: asked.kind }
    },
    async onLoadDocument({ document, documentName: name }) {
      const updates = await store.document(name).catch((error) => {
        failed('a document was not read')(error)
        throw REFUSED
      })
      sizes.set(
        name,
        updates.reduce((sum, update) => sum + update.length, 0),
      )
      for (const update of updates) Y.applyUpdate(document, update)
    },
    async afterLoadDocument({ documentName: name, document }) {
      const asked = documentOf(name)
      if (asked?.kind === 'log') desks.set(name, await hocuspocus.openDirectConnection(deskOf(asked.room)))
      // A process may have been killed before it did so.
      if (asked?.kind === 'log' || asked?.kind === 'desk')
        orders.handOn(asked.room, document, asked.seat).catch(failed('an order was not handed on'))
    },
    beforeHandleMessage({ update: data, document, documentName: name, context, connection }) {
      const wrong = wrongMessage(data, document, context.kind, connection.readOnly, sizes.get(name) ?? 0)
      if (wrong === undefined) {
        if (syncIn(data)?.step === STEP_TWO) answered(connection)
        return Promise.resolve()
      }
      const early = tooEarly.get(connection)
      if (wrong === GAP && early !== 'answered') {
        tooEarly.set(connection, (early ?? 0) + 1)
        return new Promise(() => undefined)
      }
      const { gate } = context as { readonly gate: Gate }
      gate.refuse(`${gate.member?.role}: ${wrong}`)
      // The socket is gone; this message must never be applied, and Hocuspocus would print what is thrown.
      return new Promise(() => undefined)
    },
    async onChange({ documentName: name, document, update, transactionOrigin }) {
      sizes.set(name, (sizes.get(name) ?? 0) + update.length)
      if (transactionOrigin === PEER)
        void hocuspocus.debouncer.debounce(
          ...([
            `for others ${name}`,
            () => keep(document),
            KEPT_FOR_OTHERS_AFTER_MS,
            KEPT_FOR_OTHERS_AT_LATEST_MS,
          ] as const),
        )
      const asked = documentOf(name)
      if (asked?.kind === 'desk' || asked?.kind === 'log')
        await orders.handOn(asked.room, document, asked.seat).catch(failed('an order was not handed on'))
    },
    onStoreDocument: ({ document }) => keep(document),
    beforeUnloadDocument: ({ document }) => keep(document as Document),
    async afterUnloadDocument({ documentName: name }) {
      if (hocuspocus.documents.has(name)) return
      sizes.delete(name)
      const desk = desks.get(name)
      desks.delete(name)
      await desk?.disconnect()
    },
  })

  const orders = createOrders({ store, documents: hocuspocus })

  /** Until it is kept: nobody else may have it. */
  async function keep(document: Document): Promise<void> {
    const asked = documentOf(document.name)
    while (asked && !isClosing) {
      try {
        await store.keepDocument(document.name, asked.room, document)
        return
      } catch (error) {
        failed('a document was not kept')(error)
        await new Promise((done) => setTimeout(done, AGAIN_MS).unref())
      }
    }
  }

  /** Its page has sent all that was missing here, with what came too early. */
  function answered(connection: Connection): void {
    const early = tooEarly.get(connection)
    tooEarly.set(connection, 'answered')
    if (early === 'answered') return
    for (let left = early ?? 0; left > 0; left--)
      connection.send(new OutgoingMessage(connection.document.name).writeSyncStatus(true).toUint8Array())
  }

  let line: Promise<void> = Promise.resolve()
  function inTurn(work: () => void): void {
    line = line.then(() => {
      work()
      return new Promise((done) => setImmediate(done))
    })
  }

  /** What a client would write is its own in all processes: two of them never take an entry each for the same key. */
  async function mayWrite(gate: Gate, data: Buffer): Promise<boolean> {
    const name = new IncomingMessage(data).readVarString()
    const asked = documentOf(name)
    if (!gate.member || !asked || accessTo(gate.member, asked) !== 'write') return true
    const sync = syncIn(data)
    if (!sync || sync.step === STEP_ONE) return true
    try {
      if (await peers.claim(name, () => newEntries(hocuspocus.documents.get(name), sync.payload))) return true
      gate.refuse(`${gate.member.role}: an entry would be written over`)
      return false
    } catch (error) {
      failed('the other processes cannot be asked')(error)
      throw error
    }
  }

  async function dropFormer(room: string): Promise<void> {
    for (const [gate, token] of gates)
      if (gate.member?.room === room && token !== undefined && !(await memberBy(token))) gate.close(1000)
  }

  function cutOff(room: string): void {
    for (const gate of gates.keys()) if (gate.member?.room === room) gate.close(1000)
  }

  peers.hear(
    (news) => {
      if ('closed' in news) cutOff(news.closed)
      else dropFormer(news.seats).catch(failed('tokens were not looked up'))
    },
    () => {
      sharing?.again()
      missed()
    },
  )

  return {
    connect(socket, request, address) {
      const refused = (why: string) => log(`refused ${address}: ${why}`)
      const gate = new Gate({ socket, now, inTurn, mayWrite, refused })
      gates.set(gate, undefined)
      gate.on('close', () => {
        gates.delete(gate)
        if (gate.member?.role === 'instructor') peers.unlinked(gate.member.room)
      })
      // What Hocuspocus asks of a socket is what the gate has.
      hocuspocus.handleConnection(gate as unknown as WebSocket, request, { gate })
    },
    seatsChanged(room) {
      peers.tell({ seats: room })
      const tellSeats = async () => {
        await dropFormer(room)
        const seats = (await store.seats(room)).filter(({ role }) => role === 'trainee')
        await orders.add(
          documentName({ room, kind: 'seats' }),
          seats.map(({ seat, name, joinedAt }): [string, SeatEntry] => [seat, { name, joinedAt }]),
        )
      }
      void tellSeats().catch(failed('the seats of a room were not told'))
    },
    cutOff(room) {
      peers.tell({ closed: room })
      cutOff(room)
    },
    cutOffOthers(rooms) {
      for (const { member } of [...gates.keys()]) if (member && !rooms.has(member.room)) cutOff(member.room)
    },
    async close() {
      hocuspocus.closeConnections()
      // What waits to be kept is kept now.
      const kept = [...hocuspocus.documents].map(async ([name, document]) => {
        const asked = documentOf(name)
        if (asked) await store.keepDocument(name, asked.room, document).catch(failed('a document was not kept'))
      })
      await Promise.all(kept)
      isClosing = true
    },
  }
}

/** A client whose document cannot be opened now is not told that it may not have it, but comes again. */
class Documents extends Hocuspocus {
  override async createDocument(...asked: Parameters<Hocuspocus['createDocument']>): Promise<Document> {
    try {
      return await super.createDocument(...asked)
    } catch (error) {
      const [, , , , context] = asked
      context?.gate?.drop()
      throw error
    }
  }
}

/** Without a message Hocuspocus prints nothing. */
const REFUSED = { reason: 'permission-denied' }
