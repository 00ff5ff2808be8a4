/**
 * Stands between a socket and Hocuspocus: what comes in is counted, measured and looked at first, and whoever goes too far is
 * cut off, with one line in the server's log. It looks like a socket to Hocuspocus, and lets through what it may have.
 */

import { EventEmitter } from 'node:events'
import { IncomingMessage, MessageType } from '@hocuspocus/server'
import type { WebSocket } from 'ws'
import { documentOf } from '../../room/documents.ts'
import { createBucket, type Limit } from './limits.ts'
import type { SeatRow } from './store.ts'

const MESSAGES: Limit = { burst: 400, perSecond: 40 }
const BYTES: Limit = { burst: 32_000_000, perSecond: 500_000 }
/** Before anybody has shown a token. */
const MOST_UNKNOWN = { messages: 60, bytes: 100_000 }
const UNKNOWN_MS = 10_000
/** Waiting to be sent to somebody who reads too slowly. */
const MOST_WAITING = 40_000_000
/** What is told beside the documents: the state of the ear. */
const LONGEST_PRESENCE = 1_000
const MOST_DOCUMENTS = 40

/** What a member's page has to send; the rest would be broadcast unseen, or serves nothing here. */
const TAKEN: ReadonlySet<number> = new Set([
  MessageType.Sync,
  MessageType.SyncReply,
  MessageType.Auth,
  MessageType.Awareness,
  MessageType.CLOSE,
])

export interface GateParts {
  readonly socket: WebSocket
  readonly now: () => number
  /**
   * Does one thing after another, of all gates: Hocuspocus looks at a message and applies it later, and meanwhile another must
   * not be looked at.
   */
  readonly inTurn: (work: () => void) => void
  /** Asked before, of one message after another: false where what it would write is taken. Throws where nobody can tell. */
  readonly mayWrite: (gate: Gate, data: Buffer) => Promise<boolean>
  /** One line for the log. */
  readonly refused: (why: string) => void
}

export class Gate extends EventEmitter {
  readonly #socket: WebSocket
  readonly #refused: (why: string) => void
  readonly #messages
  readonly #bytes
  readonly #unknown
  readonly #documents = new Set<string>()
  #unknownMessages = 0
  #unknownBytes = 0
  #presence: number | undefined
  #isRefused = false
  #line: Promise<void> = Promise.resolve()
  /** Once a token was good. */
  member: SeatRow | undefined

  constructor({ socket, now, inTurn, mayWrite, refused }: GateParts) {
    super()
    this.#socket = socket
    this.#refused = refused
    this.#messages = createBucket(MESSAGES, now)
    this.#bytes = createBucket(BYTES, now)
    this.#unknown = setTimeout(() => this.member || this.refuse('no token was shown'), UNKNOWN_MS)
    socket.on('message', (data, isBinary) => {
      if (!(data instanceof Buffer) || !isBinary) return this.refuse('a message is no binary one')
      const wrong = this.#wrong(data)
      if (wrong !== undefined) return this.refuse(wrong)
      if (this.#isDropped(data)) return
      this.#line = this.#line.then(async () => {
        if (await mayWrite(this, data).catch(() => this.drop()))
          inTurn(() => {
            if (this.#socket.readyState === this.#socket.OPEN) this.emit('message', data)
          })
      })
    })
    socket.on('pong', () => this.emit('pong'))
    // Too long a frame, a broken one: the socket closes by itself, and must not be thrown.
    socket.on('error', ({ message }) => this.refuse(message))
    socket.on('close', (...how) => {
      clearTimeout(this.#unknown)
      this.emit('close', ...how)
    })
  }

  /** Cut off, and told once. */
  refuse(why: string): void {
    if (this.#isRefused) return
    this.#isRefused = true
    this.#refused(why)
    this.#socket.terminate()
  }

  /** Cut off through no fault of its own: it comes again by itself. */
  drop(): false {
    this.#socket.terminate()
    return false
  }

  #wrong(data: Buffer): string | undefined {
    if (!this.#messages.take()) return 'too many messages'
    if (!this.#bytes.take(data.length)) return 'too much at once'
    if (!this.member) {
      this.#unknownMessages += 1
      this.#unknownBytes += data.length
      const { messages, bytes } = MOST_UNKNOWN
      if (this.#unknownMessages > messages || this.#unknownBytes > bytes) return 'too much before a token'
    }
    try {
      const message = new IncomingMessage(data)
      const name = message.readVarString()
      if (!documentOf(name)) return 'an unknown document'
      this.#documents.add(name)
      if (this.#documents.size > MOST_DOCUMENTS) return 'too many documents'
      const type = message.readVarUint()
      return TAKEN.has(type) ? undefined : `a message of type ${type}`
    } catch {
      return 'a message cannot be read'
    }
  }

  /** A trainee's page tells of its own ear, in few words. Pages repeat what they are told of others: that goes nowhere. */
  #isDropped(data: Buffer): boolean {
    const message = new IncomingMessage(data)
    message.readVarString()
    if (message.readVarUint() !== MessageType.Awareness) return false
    try {
      const update = message.readVarUint8Array()
      const about = new IncomingMessage(update)
      if (this.member?.role !== 'trainee' || update.length > LONGEST_PRESENCE || about.readVarUint() !== 1) return true
      const client = about.readVarUint()
      this.#presence ??= client
      return client !== this.#presence
    } catch {
      return true
    }
  }

  // What Hocuspocus asks of a socket.
  get readyState(): number {
    return this.#socket.readyState
  }
  set binaryType(_: string) {}
  send(data: Uint8Array, done?: (error?: Error) => void): void {
    if (this.#socket.bufferedAmount > MOST_WAITING) this.refuse('it reads too slowly')
    else this.#socket.send(data, done)
  }
  ping(): void {
    this.#socket.ping()
  }
  close(code?: number, reason?: string): void {
    this.#socket.close(code, reason)
  }
}
