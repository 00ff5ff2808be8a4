/** What this browser keeps of rooms: the ticket in the tab, marks and grades that were shown beside the settings. */

import type { RoomGrade, RoomMark } from '../../room/entries.ts'
import type { Ticket } from '../../room/http.ts'

const TICKET = 'otherseat.room'
const MARKS = 'otherseat.marks'
const GRADES = 'otherseat.grades'
/** Of many runs; older ones are forgotten. */
const MOST = 500

/** Where storage is refused, nothing is kept and nothing is lost but that. */
export function createRoomKept(tab: Storage | undefined, kept: Storage | undefined) {
  function read<T>(storage: Storage | undefined, key: string): T | undefined {
    try {
      return JSON.parse(storage?.getItem(key) ?? 'null') ?? undefined
    } catch {
      return undefined
    }
  }
  function write(storage: Storage | undefined, key: string, what: unknown): void {
    try {
      if (what === undefined) storage?.removeItem(key)
      else storage?.setItem(key, JSON.stringify(what))
    } catch {
      // Full: it is there until the page closes.
    }
  }
  return {
    ticket: () => read<Ticket>(tab, TICKET),
    keepTicket: (ticket: Ticket | undefined) => write(tab, TICKET, ticket),
    marks: () => read<readonly RoomMark[]>(kept, MARKS) ?? [],
    keepMarks: (marks: readonly RoomMark[]) => write(kept, MARKS, marks.slice(-MOST)),
    grades: () => read<readonly RoomGrade[]>(kept, GRADES) ?? [],
    keepGrades: (grades: readonly RoomGrade[]) => write(kept, GRADES, grades.slice(-MOST)),
  }
}
