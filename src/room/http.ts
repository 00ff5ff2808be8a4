/** What page and server of a room say to each other besides the documents: opening, joining, leaving. */

import type { RoomRole } from './documents.ts'

/** Folder of all of it, beside the app; the link is a web socket. */
export const ROOM_PATH = '/room'
export const LINK_PATH = `${ROOM_PATH}/link`
/** Whether this server has rooms at all, and where others reach it. */
export const ABOUT_PATH = `${ROOM_PATH}/about`
export const OPEN_PATH = `${ROOM_PATH}/open`
export const JOIN_PATH = `${ROOM_PATH}/join`
export const LEAVE_PATH = `${ROOM_PATH}/leave`
/** Deletes the room and all that the server has of it. */
export const CLOSE_PATH = `${ROOM_PATH}/close`

/** What a member holds. Whoever has the token is the member. */
export interface Ticket {
  readonly room: string
  readonly code: string
  readonly role: RoomRole
  readonly seat: string
  readonly name: string
  readonly token: string
  /** Clock times, ms since 1970: until when the code admits others, and when the room and all of it are deleted. */
  readonly codeUntil: number
  readonly until: number
}

export interface AboutRooms {
  readonly rooms: true
  /** Addresses of the app as other devices reach it. */
  readonly addresses: readonly string[]
}

export const MOST_NAME = 40
