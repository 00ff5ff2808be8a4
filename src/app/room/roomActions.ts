/** What the screens may ask for of a room. Whoever asks for none loads nothing of it. */

import type { Injection } from '../../kernel/run/core/injections.ts'
import type { RoomServer } from '../../ports.ts'
import type { RoomRole } from '../../room/documents.ts'
import type { RoomGrade, RoomMark } from '../../room/entries.ts'
import type { Ticket } from '../../room/http.ts'
import type { GradeGiven } from '../grading/gradeGiven.ts'
import type { SavedFile } from '../runs/runFiles.ts'
import type { RoomState } from '../store.ts'
import type { JoinedRoom, RoomActionParts } from './room.ts'
import { EMPTY_ROOM } from './roomState.ts'
import { createVoiceNotes, type NoteParts } from './voiceNotes.ts'

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
  /** Grades a competency in the run that is watched. */
  gradeSeen(given: GradeGiven): void
  /** The trainee sees marks and grades of this run in its debrief from now on. */
  showMarks(): void
  /** The run that is watched, with its marks and grades; with its voice notes where that is wanted. */
  saveMarkedRun(withNotes: boolean): Promise<SavedFile | undefined>
  /** What the instructor lets the trainee see, of any run. */
  marksOf(runId: string): readonly RoomMark[]
  gradesOf(runId: string): readonly RoomGrade[]
  /** A voice note on this mark, or on one that is made for it; ends the one that is being recorded. */
  recordNote(mark?: RoomMark): Promise<void>
  /** Plays it, or stops where it plays. */
  playNote(mark: RoomMark): Promise<void>
  /** Looks up how much sound of notes this browser keeps. */
  readNotes(): Promise<void>
  /** Of all runs; there is no way back. */
  deleteNotes(): Promise<void>
}

/** What this browser keeps of rooms: the ticket as long as the tab is there, marks for good. */
export interface RoomKept {
  ticket(): Ticket | undefined
  keepTicket(ticket: Ticket | undefined): void
  marks(): readonly RoomMark[]
  keepMarks(marks: readonly RoomMark[]): void
  grades(): readonly RoomGrade[]
  keepGrades(grades: readonly RoomGrade[]): void
}

/** What a mark says that was made for a voice note. */
const SPOKEN = 'to talk about'

interface Parts extends Omit<RoomActionParts, 'keepMarks' | 'notesOf'>, NoteParts {
  readonly roomServer: () => Promise<RoomServer>
  readonly roomKept: RoomKept
}

export function roomActions({ roomServer, roomKept, ...parts }: Parts): RoomActions {
  const { store } = parts
  const notes = createVoiceNotes(parts)
  let joined: JoinedRoom | undefined

  function change(next: Partial<RoomState>): void {
    store.setState(({ room = EMPTY_ROOM }) => ({ room: { ...room, ...next } }))
  }

  function keepMarks(marks: readonly RoomMark[], grades: readonly RoomGrade[]): void {
    const fresh = <T extends { readonly id: string }>(kept: readonly T[], all: readonly T[]) =>
      all.filter(({ id }) => !kept.some((one) => one.id === id))
    const [ownMarks, ownGrades] = [roomKept.marks(), roomKept.grades()]
    const [newMarks, newGrades] = [fresh(ownMarks, marks), fresh(ownGrades, grades)]
    if (newMarks.length > 0) roomKept.keepMarks([...ownMarks, ...newMarks])
    if (newGrades.length > 0) roomKept.keepGrades([...ownGrades, ...newGrades])
    // A debrief on the screen shows them.
    if (newMarks.length + newGrades.length > 0) change({})
  }

  /** Runs of which this room has marks. */
  const markedRuns = () => [...new Set((store.getState().room?.marks ?? []).map(({ runId }) => runId))]

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
    joined = joinRoom({ ...parts, keepMarks, notesOf: notes.all }, server.link(ticket), ticket, change)
  }

  function leave(message = ''): void {
    void notes.end()
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
      if (said && 'why' in said) return change({ message: said.why })
      // One that is being recorded is among them.
      await notes.end()
      await notes.deleteOf(markedRuns())
      leave('The room is closed, and all of it deleted.')
    },
    watchSeat: (chosen) => change({ chosen }),
    giveOrder: (what, at) => joined?.order(what, at),
    withdrawOrder: (id) => joined?.withdraw(id),
    markMoment: (words) => void joined?.mark(words),
    gradeSeen: (given) => joined?.grade(given),
    showMarks: () => joined?.showMarks(),
    saveMarkedRun: async (withNotes) => joined?.saved(withNotes),
    marksOf: (runId) => roomKept.marks().filter((mark) => mark.runId === runId),
    gradesOf: (runId) => roomKept.grades().filter((grade) => grade.runId === runId),
    async recordNote(mark) {
      if (store.getState().notes.recording) return notes.end()
      const on = mark ?? joined?.mark(SPOKEN)
      if (on) await notes.begin(on)
    },
    playNote: notes.play,
    async readNotes() {
      await notes.showSize()
      await notes.lookUp(markedRuns())
    },
    deleteNotes: notes.deleteAll,
  }
}
