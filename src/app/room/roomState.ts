/** What the screens show of a room: who is in it, how the link is, and what the instructor sees and has prepared. */

import type { RoomLinkState } from '../../ports.ts'
import type { Order, RoomMark } from '../../room/entries.ts'
import type { AboutRooms, Ticket } from '../../room/http.ts'
import type { Store } from '../store.ts'

/** A trainee as the instructor, or a guest, sees them: a store of its own, for the parts of the screen that show a run. */
export interface Watched {
  readonly seat: string
  readonly name: string
  readonly store: Store
}

export interface RoomState {
  /** `looking`: it is being asked; `none`: this page came from a server without rooms. */
  readonly server: AboutRooms | 'looking' | 'none'
  /** Why something could not be done. */
  readonly message: string
  /** A code that came with a link. */
  readonly offered: string
  readonly ticket: Ticket | undefined
  readonly link: RoomLinkState
  readonly watched: readonly Watched[]
  /** The seat that is shown large. */
  readonly chosen: string | undefined
  readonly orders: readonly Order[]
  /** Ids of orders that wait no more: given out, or withdrawn. */
  readonly given: ReadonlySet<string>
  readonly withdrawn: ReadonlySet<string>
  readonly marks: readonly RoomMark[]
  /** Runs of which the trainee sees the marks. */
  readonly shown: ReadonlySet<string>
}

export const EMPTY_ROOM: RoomState = {
  server: 'looking',
  message: '',
  offered: '',
  ticket: undefined,
  link: 'away',
  watched: [],
  chosen: undefined,
  orders: [],
  given: new Set(),
  withdrawn: new Set(),
  marks: [],
  shown: new Set(),
}
