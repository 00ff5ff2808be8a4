/** What the screens may ask for of a room. Whoever asks for none loads nothing of it. */

import type { Injection } from '../../kernel/run/core/injections.ts'
import type { RoomServer } from '../../ports.ts'
import type { RoomRole } from '../../room/documents.ts'
import type { RoomMark } from '../../room/entries.ts'
import type { Ticket } from '../../room/http.ts'
import type { SavedFile } from '../runs/runFiles.ts'
import type { RoomState } from '../store.ts'
import type { JoinedRoom, RoomActionParts } from './room.ts'
import { EMPTY_ROOM } from './roomState.ts'

export interface RoomActions {
  /** Asks this page's server whether it has rooms. `code`: of a link that was opened. */
  lookForRooms(code?: string): Promise<void>
  openRoom(name: string): Promise<void>
  joinRoom(asked: { readonly code: string; readonly role: RoomRole; readonly name: string }): Promise<void>
  /** After a reload of the page. */
  rejoinRoom(): Promise<void>
  leaveRoom(): Promise<void>
  /** Deletes the room and all that the server has of it. */
  closeRoom(): Promise<void>
  watchSeat(seat: string): void
  /** Has something happen in the run that is watched: at once, or once it comes to this item or activity. */
  giveOrder(what: Injection, at?: string): void
  withdrawOrder(id: string): void
  /** Notes the moment that the run is at. */
  markMoment(words: string): void
  /** The trainee sees the marks of this run in its debrief from now on. */
  showMarks(): void
  /** The run that is watched, with its marks. */
  saveMarkedRun(): SavedFile | undefined
  /** What the instructor lets the trainee see, of any run. */
  marksOf(runId: string): readonly RoomMark[]
}

/** What this browser keeps of rooms: the ticket as long as the tab is there, marks for good. */
export interface RoomKept {
  ticket(): Ticket | undefined
  keepTicket(ticket: Ticket | undefined): void
  marks(): readonly RoomMark[]
  keepMarks(marks: readonly RoomMark[]): void
}

interface Parts extends Omit<RoomActionParts, 'keepMarks'> {
  readonly roomServer: () => Promise<RoomServer>
  readonly roomKept: RoomKept
}

export function roomActions({ roomServer, roomKept, ...parts }: Parts): RoomActions {
  const { store } = parts
  let joined: JoinedRoom | undefined

  function change(next: Partial<RoomState>): void {
    store.setState(({ room = EMPTY_ROOM }) => ({ room: { ...room, ...next } }))
  }

  function keepMarks(marks: readonly RoomMark[]): void {
    const kept = roomKept.marks()
    const fresh = marks.filter(({ id }) => !kept.some((one) => one.id === id))
    if (fresh.length === 0) return
    roomKept.keepMarks([...kept, ...fresh])
    // A debrief on the screen shows them.
    change({})
  }

  async function enter(asked: Promise<Ticket | { readonly why: string }>): Promise<void> {
    const ticket = await asked
    if ('why' in ticket) return change({ message: ticket.why })
    await enterWith(ticket)
  }

  async function enterWith(ticket: Ticket): Promise<void> {
    const [{ joinRoom }, server] = await Promise.all([import('./room.ts'), roomServer()])
    roomKept.keepTicket(ticket)
    joined?.leave()
    const { room = EMPTY_ROOM } = store.getState()
    store.setState({ room: { ...EMPTY_ROOM, server: room.server, ticket } })
    joined = joinRoom({ ...parts, keepMarks }, server.link(ticket), ticket, change)
  }

  function leave(message = ''): void {
    joined?.leave()
    joined = undefined
    roomKept.keepTicket(undefined)
    const { room = EMPTY_ROOM } = store.getState()
    store.setState({ room: { ...EMPTY_ROOM, server: room.server, message } })
  }

  return {
    async lookForRooms(code) {
      const { room = EMPTY_ROOM } = store.getState()
      store.setState({ room: { ...room, ...(code !== undefined && { offered: code }) } })
      const about = await (await roomServer()).about()
      change({ server: about ?? 'none' })
    },
    openRoom: async (name) => enter((await roomServer()).open(name)),
    joinRoom: async (asked) => enter((await roomServer()).join(asked)),
    async rejoinRoom() {
      const ticket = roomKept.ticket()
      if (ticket && !joined) await enterWith(ticket)
    },
    async leaveRoom() {
      const { ticket } = store.getState().room ?? EMPTY_ROOM
      leave()
      if (ticket) await (await roomServer()).leave(ticket)
    },
    async closeRoom() {
      const { ticket } = store.getState().room ?? EMPTY_ROOM
      const said = ticket && (await (await roomServer()).close(ticket))
      if (said && 'why' in said) change({ message: said.why })
      else leave('The room is closed, and all of it deleted.')
    },
    watchSeat: (chosen) => change({ chosen }),
    giveOrder: (what, at) => joined?.order(what, at),
    withdrawOrder: (id) => joined?.withdraw(id),
    markMoment: (words) => joined?.mark(words),
    showMarks: () => joined?.showMarks(),
    saveMarkedRun: () => joined?.saved(),
    marksOf: (runId) => roomKept.marks().filter((mark) => mark.runId === runId),
  }
}
