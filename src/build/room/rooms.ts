/** Rooms by their codes: opened, joined, left, and deleted when their time is over. Tokens are kept as their hashes alone. */

import { createHash, randomBytes, randomInt } from 'node:crypto'
import { CODE_LENGTH, CODE_SIGNS, codeIn } from '../../room/code.ts'
import type { RoomRole } from '../../room/documents.ts'
import type { Ticket } from '../../room/http.ts'
import type { Limit } from './limits.ts'
import type { Peers } from './peers.ts'
import type { RoomRow, RoomStore, SeatRow } from './store.ts'

/** A refusal: what the client is told, by which HTTP status. */
export interface Refusal {
  readonly status: 400 | 403 | 404 | 409 | 429
  readonly why: string
}
export const isRefusal = (what: object): what is Refusal => 'why' in what

export interface Rooms {
  /** The server's own room: that of before a restart, while its code holds. */
  own(): Promise<RoomRow>
  open(address: string, name: string): Promise<Ticket | Refusal>
  join(
    address: string,
    asked: { readonly code: string; readonly role: RoomRole; readonly name: string },
  ): Promise<Ticket | Refusal>
  memberBy(token: string): Promise<SeatRow | undefined>
  leave(token: string): Promise<SeatRow | undefined>
  /** By its instructor, or by a trainee who is alone in it. */
  close(token: string): Promise<SeatRow | Refusal>
  /** Deletes what is over, and gives the ids of those rooms. */
  expire(): Promise<readonly string[]>
}

const HOUR_MS = 3_600_000
const CODE_HOURS = 4
const ROOM_HOURS = 24
const MOST_ROOMS = 250
const MOST = { trainee: 12, guest: 30 }

/** Wrong codes from one address, and from all: of some 244 million codes. */
const GUESSES: Limit = { burst: 10, perSecond: 10 / 600 }
const ALL_GUESSES: Limit = { burst: 200, perSecond: 200 / 600 }

const hashOf = (token: string) => createHash('sha256').update(token).digest('base64url')
const unguessable = () => randomBytes(24).toString('base64url')

export interface RoomsParts {
  readonly store: RoomStore
  readonly peers: Peers
  readonly now: () => number
  /** Rooms that may be opened from one address. */
  readonly openings: Limit
  /** Somebody has joined, or a token is no longer good. */
  readonly changed: (room: string) => void
}

export function createRooms({ store, peers, now, openings: mostOpenings, changed }: RoomsParts): Rooms {
  const guesses = peers.limit('guesses', GUESSES)
  const allGuesses = peers.limit('all guesses', ALL_GUESSES)
  const openings = peers.limit('openings', mostOpenings)

  const newRoom = (isOwn: boolean): RoomRow => ({
    id: randomBytes(12).toString('base64url'),
    code: Array.from({ length: CODE_LENGTH }, () => CODE_SIGNS[randomInt(CODE_SIGNS.length)]).join(''),
    codeUntil: now() + CODE_HOURS * HOUR_MS,
    until: now() + ROOM_HOURS * HOUR_MS,
    isOwn,
  })

  async function seated(
    { id: room, code, codeUntil, until }: RoomRow,
    role: RoomRole,
    name: string,
  ): Promise<Ticket | Refusal> {
    const [seat, token] = [randomBytes(6).toString('base64url'), unguessable()]
    // An instructor who was there is not there any more: the seat goes on to this device.
    const most = role === 'instructor' ? undefined : MOST[role]
    if (!(await store.addSeat(hashOf(token), { room, role, seat, name, joinedAt: now() }, most)))
      return { status: 409, why: 'This room is full.' }
    changed(room)
    return { room, code, role, seat, name, token, codeUntil, until }
  }

  const memberBy = (token: string) => store.seatOf(hashOf(token), now())

  return {
    own: () => store.ownRoom(now(), newRoom(true)),
    async open(address, name) {
      if (!(await openings.take(address)))
        return { status: 429, why: 'Too many rooms were opened from here: wait some minutes.' }
      for (;;) {
        const room = newRoom(false)
        const added = await store.addRoom(room, MOST_ROOMS)
        if (added === 'full') return { status: 429, why: 'This server has too many rooms open.' }
        if (added === 'added') return seated(room, 'trainee', name)
      }
    },
    async join(address, { code, role, name }) {
      // Looked up only where a wrong one may still be told: or a right guess would show among refusals.
      if (!(await guesses.take(address)) || !(await allGuesses.take('')))
        return { status: 429, why: 'Too many wrong codes: wait some minutes.' }
      const asked = codeIn(code)
      const room = asked === undefined ? undefined : await store.roomByCode(asked, now())
      if (!room) return { status: 404, why: 'No room has this code now.' }
      await guesses.giveBack(address)
      await allGuesses.giveBack('')
      if (role === 'instructor' && (await peers.isLinked(room.id)))
        return { status: 409, why: 'The instructor’s seat is taken.' }
      return seated(room, role, name)
    },
    memberBy,
    async leave(token) {
      const seat = await memberBy(token)
      if (!seat) return undefined
      await store.deleteSeat(hashOf(token))
      changed(seat.room)
      return seat
    },
    async close(token) {
      const seat = await memberBy(token)
      const others = seat ? (await store.seats(seat.room)).filter(({ role }) => role === 'trainee') : []
      const isTheirs = seat?.role === 'instructor' || (seat?.role === 'trainee' && others.length === 1)
      if (!seat || !isTheirs)
        return { status: 403, why: 'A room is closed by its instructor, or by a trainee who is alone in it.' }
      await store.deleteRoom(seat.room)
      return seat
    },
    expire: () => store.deleteOver(now()),
  }
}
