/** A room before anything is known of it. */

import type { RoomState } from '../store.ts'

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
  grades: [],
  shown: new Set(),
}
