/**
 * The documents of a room: which there are, who may read and who may write each, and what lies in them. Each is a map that
 * only grows, from a key to a JSON text, so that whatever is sent twice, late or after a break is there once.
 */

export const ROOM_ROLES = ['trainee', 'instructor', 'guest'] as const
export type RoomRole = (typeof ROOM_ROLES)[number]

/** Name of the map in each document. */
export const ENTRIES = 'entries'

export const DOCUMENT_KINDS = ['seats', 'log', 'desk', 'orders'] as const
/**
 * `seats`: who trains in the room; `log`: the runs of one seat, as they happen; `desk`: what the instructor has prepared and
 * marked; `orders`: what has been released to one seat.
 */
export type DocumentKind = (typeof DOCUMENT_KINDS)[number]

export interface RoomDocument {
  readonly room: string
  readonly kind: DocumentKind
  /** Of a log or of orders. */
  readonly seat?: string
}

export const documentName = ({ room, kind, seat }: RoomDocument): string =>
  [room, kind, ...(seat === undefined ? [] : [seat])].join('/')

/** Undefined where it is no name of a document. */
export function documentOf(name: string): RoomDocument | undefined {
  const match = /^([\w-]{1,40})\/(?:(seats|desk)|(log|orders)\/([\w-]{1,40}))$/.exec(name)
  if (!match) return undefined
  const [, room = '', whole, own, seat] = match
  return whole === undefined
    ? { room, kind: own as DocumentKind, ...(seat !== undefined && { seat }) }
    : { room, kind: whole as DocumentKind }
}

/** Somebody who has joined. */
export interface Member {
  readonly room: string
  readonly role: RoomRole
  readonly seat: string
}

/** What this member may do with a document; undefined: not even look. Seats and orders are written by the server alone. */
export function accessTo({ room, role, seat }: Member, asked: RoomDocument): 'read' | 'write' | undefined {
  if (asked.room !== room) return undefined
  switch (asked.kind) {
    case 'seats':
      return 'read'
    case 'log':
      if (role === 'trainee') return asked.seat === seat ? 'write' : undefined
      return 'read'
    case 'desk':
      return role === 'instructor' ? 'write' : undefined
    case 'orders':
      if (role === 'trainee') return asked.seat === seat ? 'read' : undefined
      return role === 'instructor' ? 'read' : undefined
  }
}
