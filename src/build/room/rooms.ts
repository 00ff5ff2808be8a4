/** Rooms by their codes: opened, joined, left, and deleted when their time is over. Tokens are kept as their hashes alone. */

import { createHash, randomBytes, randomInt } from 'node:crypto'
import { CODE_LENGTH, CODE_SIGNS, codeIn } from '../../room/code.ts'
import type { RoomRole } from '../../room/documents.ts'
import type { Ticket } from '../../room/http.ts'
import type { RoomDatabase, RoomRow, SeatRow } from './database.ts'
import { bucketsBy, createBucket, type Limit } from './limits.ts'

/** A refusal: what the client is told, by which HTTP status. */
export interface Refusal {
  readonly status: 400 | 403 | 404 | 409 | 429
  readonly why: string
}
export const isRefusal = (what: object): what is Refusal => 'why' in what

export interface Rooms {
  /** The server's own room: that of before a restart, while its code holds. */
  own(): RoomRow
  open(address: string, name: string): Ticket | Refusal
  join(
    address: string,
    asked: { readonly code: string; readonly role: RoomRole; readonly name: string },
  ): Ticket | Refusal
  memberBy(token: string): SeatRow | undefined
  leave(token: string): SeatRow | undefined
  /** By its instructor, or by a trainee who is alone in it. */
  close(token: string): SeatRow | Refusal
  /** Deletes what is over, and gives the ids of those rooms. */
  expire(): readonly string[]
}

const HOUR_MS = 3_600_000
const CODE_HOURS = 4
const ROOM_HOURS = 24
const MOST_ROOMS = 250
const MOST: Readonly<Record<RoomRole, number>> = { trainee: 12, instructor: 1, guest: 30 }

/** Wrong codes from one address, and from all: of some 244 million codes. */
const GUESSES: Limit = { burst: 10, perSecond: 10 / 600 }
const ALL_GUESSES: Limit = { burst: 200, perSecond: 200 / 600 }
const OPENINGS: Limit = { burst: 5, perSecond: 5 / 600 }

const hashOf = (token: string) => createHash('sha256').update(token).digest('base64url')
const unguessable = () => randomBytes(24).toString('base64url')

export interface RoomsParts {
  readonly database: RoomDatabase
  readonly now: () => number
  /** Whether the holder of a seat is linked at this moment. */
  readonly isLinked: (room: string, role: RoomRole) => boolean
  /** Somebody has joined, or a token is no longer good. */
  readonly changed: (room: string) => void
}

export function createRooms({ database, now, isLinked, changed }: RoomsParts): Rooms {
  const guesses = bucketsBy(GUESSES, now)
  const allGuesses = createBucket(ALL_GUESSES, now)
  const openings = bucketsBy(OPENINGS, now)

  function newCode(): string {
    const used = new Set(database.rooms().map(({ code }) => code))
    for (;;) {
      const code = Array.from({ length: CODE_LENGTH }, () => CODE_SIGNS[randomInt(CODE_SIGNS.length)]).join('')
      if (!used.has(code)) return code
    }
  }

  function newRoom(isOwn: boolean): RoomRow {
    const room: RoomRow = {
      id: randomBytes(12).toString('base64url'),
      code: newCode(),
      codeUntil: now() + CODE_HOURS * HOUR_MS,
      until: now() + ROOM_HOURS * HOUR_MS,
      isOwn,
    }
    database.addRoom(room)
    return room
  }

  function seated({ id: room, code, codeUntil, until }: RoomRow, role: RoomRole, name: string): Ticket {
    const [seat, token] = [randomBytes(6).toString('base64url'), unguessable()]
    database.addSeat(hashOf(token), { room, role, seat, name, joinedAt: now() })
    changed(room)
    return { room, code, role, seat, name, token, codeUntil, until }
  }

  return {
    own() {
      const there = database.rooms().findLast((room) => room.isOwn && room.codeUntil > now())
      return there ?? newRoom(true)
    },
    open(address, name) {
      if (!openings.of(address).take())
        return { status: 429, why: 'Too many rooms were opened from here: wait some minutes.' }
      if (database.rooms().length >= MOST_ROOMS) return { status: 429, why: 'This server has too many rooms open.' }
      return seated(newRoom(false), 'trainee', name)
    },
    join(address, { code, role, name }) {
      const own = guesses.of(address)
      // Looked up only where a wrong one may still be told: or a right guess would show among refusals.
      if (!own.take() || !allGuesses.take()) return { status: 429, why: 'Too many wrong codes: wait some minutes.' }
      const asked = codeIn(code)
      const room = database.rooms().find((one) => one.code === asked && one.codeUntil > now())
      if (!room) return { status: 404, why: 'No room has this code now.' }
      own.giveBack()
      allGuesses.giveBack()
      const there = database.seats(room.id).filter((one) => one.role === role).length
      if (role === 'instructor') {
        if (isLinked(room.id, role)) return { status: 409, why: 'The instructor’s seat is taken.' }
        // Whoever was there is not there any more: the seat goes on to this device.
        database.deleteRole(room.id, role)
      } else if (there >= MOST[role]) return { status: 409, why: 'This room is full.' }
      return seated(room, role, name)
    },
    memberBy(token) {
      const seat = database.seatOf(hashOf(token))
      return seat && database.rooms().some(({ id, until }) => id === seat.room && until > now()) ? seat : undefined
    },
    leave(token) {
      const seat = database.seatOf(hashOf(token))
      if (seat) database.deleteSeat(hashOf(token))
      if (seat) changed(seat.room)
      return seat
    },
    close(token) {
      const seat = this.memberBy(token)
      const others = seat ? database.seats(seat.room).filter(({ role }) => role === 'trainee') : []
      const isTheirs = seat?.role === 'instructor' || (seat?.role === 'trainee' && others.length === 1)
      if (!seat || !isTheirs)
        return { status: 403, why: 'A room is closed by its instructor, or by a trainee who is alone in it.' }
      database.deleteRoom(seat.room)
      return seat
    },
    expire() {
      const over = database.rooms().filter(({ until }) => until <= now())
      for (const { id } of over) database.deleteRoom(id)
      return over.map(({ id }) => id)
    },
  }
}
