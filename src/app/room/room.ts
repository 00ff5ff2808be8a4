/** A room that somebody has joined: the trainee's run is shared, the instructor's desk kept, and what others do is shown. */

import { gradingOf } from '../../kernel/pack/standardGrading.ts'
import type { Injection } from '../../kernel/run/core/injections.ts'
import { placeName } from '../../kernel/run/core/interruption.ts'
import { type RunSummary, summarise } from '../../kernel/run/core/summary.ts'
import type { Clock, RoomDocuments, RoomEntries, RunSounds } from '../../ports.ts'
import {
  gradeKey,
  type MarksShown,
  markKey,
  type Order,
  orderKey,
  parsed,
  type RoomGrade,
  type RoomMark,
  type SeatEntry,
  shownKey,
  withdrawnKey,
} from '../../room/entries.ts'
import type { Ticket } from '../../room/http.ts'
import { type GradeGiven, gradeFrom } from '../grading/gradeGiven.ts'
import type { RunSession } from '../run/session.ts'
import { runName, type SavedFile } from '../runs/runFiles.ts'
import type { RoomState, Watched } from '../store.ts'
import { createAppStore, type Store } from '../store.ts'
import { markedRun } from './markedRun.ts'
import { share } from './sharing.ts'
import { type Watching, watchLog } from './watching.ts'

export interface RoomActionParts {
  readonly store: Store
  readonly session: () => RunSession | undefined
  readonly clock: Clock
  readonly newId: () => string
  readonly keepMarks: (marks: readonly RoomMark[], grades: readonly RoomGrade[]) => void
  /** Voice notes of a run, by the numbers of their marks; undefined where they cannot be read. */
  readonly notesOf: (runId: string) => Promise<RunSounds | undefined>
}

export interface JoinedRoom {
  order(what: Injection, at?: string): void
  withdraw(id: string): void
  /** Undefined where there is no run to mark. */
  mark(words: string): RoomMark | undefined
  grade(given: GradeGiven): void
  showMarks(): void
  /** `withNotes`: the voice notes are in it. */
  saved(withNotes: boolean): Promise<SavedFile | undefined>
  leave(): void
}

/** `change`: of what the store has of the room. */
export function joinRoom(
  parts: RoomActionParts,
  documents: RoomDocuments,
  ticket: Ticket,
  change: (next: Partial<RoomState>) => void,
): JoinedRoom {
  const { store, clock, newId, keepMarks } = parts
  const { role, seat, name } = ticket
  const room = () => store.getState().room
  const leaving: (() => void)[] = [documents.subscribe((link) => change({ link }))]
  const watching = new Map<string, Watching>()
  const by = name === '' ? 'The instructor' : name
  const given = () => new Date(clock.now()).toISOString()

  if (role === 'trainee') leaving.push(share({ ...parts, documents, seat, marked: keepMarks }))
  else watchSeats()
  const desk = role === 'instructor' ? documents.open({ kind: 'desk' }) : undefined
  if (desk) {
    const read = () => change(deskIn(desk))
    read()
    leaving.push(desk.subscribe(read))
  }

  function watchSeats(): void {
    const seats = documents.open({ kind: 'seats' })
    const read = () => {
      for (const id of seats.all().keys())
        if (!watching.has(id)) watchSeat(id, parsed(seats.all().get(id) ?? '') as SeatEntry)
    }
    read()
    leaving.push(seats.subscribe(read))
  }

  function watchSeat(id: string, entry: SeatEntry): void {
    const own = createAppStore({ settings: store.getState().settings, writer: 'elsewhere' })
    watching.set(id, watchLog(documents.open({ kind: 'log', seat: id }), own))
    const { watched = [], chosen } = room() ?? {}
    const number = watched.length + 1
    const one: Watched = { seat: id, name: entry.name || `Trainee ${number}`, store: own }
    change({ watched: [...watched, one], chosen: chosen ?? id })
    if (role === 'instructor') followOrders(documents.open({ kind: 'orders', seat: id }))
  }

  /** What the server has handed on. */
  function followOrders(orders: RoomEntries): void {
    const read = () => {
      const ids = [...orders.all().keys()].flatMap((key) =>
        key.startsWith('order/') ? [key.slice('order/'.length)] : [],
      )
      change({ given: new Set([...(room()?.given ?? []), ...ids]) })
    }
    read()
    leaving.push(orders.subscribe(read))
  }

  function chosen(): { readonly watched: Watched; readonly store: Store } | undefined {
    const watched = room()?.watched.find((one) => one.seat === room()?.chosen)
    return watched && { watched, store: watched.store }
  }

  return {
    order(what, at) {
      const one = chosen()
      const { run } = one?.store.getState() ?? {}
      if (!desk || !one || !run) return
      const id = newId()
      const order: Order = {
        ...{ id, seat: one.watched.seat, runId: run.runId, by, given: given(), what },
        ...(at !== undefined && { at }),
      }
      desk.add(orderKey(id), JSON.stringify(order))
    },
    withdraw: (id) => desk?.add(withdrawnKey(id), JSON.stringify({ id })),
    mark(words) {
      const one = chosen()
      const { run, pack } = one?.store.getState() ?? {}
      if (!desk || !one || !run || !pack || words.trim() === '') return undefined
      const { runId, seq, t } = run
      const id = newId()
      const mark: RoomMark = {
        ...{ id, seat: one.watched.seat, runId, by, given: given(), words: words.trim() },
        ...{ seq, t, place: placeName(pack, run) },
      }
      desk.add(markKey(id), JSON.stringify(mark))
      return mark
    },
    grade(what) {
      const one = chosen()
      const { run, pack } = one?.store.getState() ?? {}
      if (!desk || !one || !run || !pack) return
      const id = newId()
      const grade = gradeFrom(gradingOf(pack), what, { id, runId: run.runId, by, given: given() })
      if (grade) desk.add(gradeKey(id), JSON.stringify({ ...grade, seat: one.watched.seat } satisfies RoomGrade))
    },
    showMarks() {
      const one = chosen()
      const { run } = one?.store.getState() ?? {}
      if (!desk || !one || !run) return
      const shown: MarksShown = { seat: one.watched.seat, runId: run.runId }
      desk.add(shownKey(run.runId), JSON.stringify(shown))
    },
    async saved(withNotes) {
      const one = chosen()
      const events = one && watching.get(one.watched.seat)?.events()
      const summary = events?.reduce<RunSummary | undefined>(summarise, undefined)
      if (!one || !events || !summary) return undefined
      const { marks = [], grades = [] } = room() ?? {}
      const { pack, run } = one.store.getState()
      const ofRun = <T extends { readonly runId: string }>(all: readonly T[]) =>
        all.filter(({ runId }) => runId === summary.runId)
      return markedRun({
        name: `otherseat-${runName(summary)}-marked`,
        ...{ events, by, now: clock.now(), summary },
        list: pack ? gradingOf(pack).source : '',
        isOver: run?.status === 'ended' || run?.floor.at === 'end',
        ...{ marks: ofRun(marks), grades: ofRun(grades).map(({ seat: _seat, ...grade }) => grade) },
        notes: (withNotes && (await parts.notesOf(summary.runId))) || new Map(),
      })
    },
    leave() {
      for (const leave of leaving) leave()
      for (const { leave } of watching.values()) leave()
      documents.close()
    },
  }
}

function deskIn(desk: RoomEntries): Pick<RoomState, 'orders' | 'marks' | 'grades' | 'withdrawn' | 'shown'> {
  const all = desk.all()
  const of = <T>(head: string): T[] =>
    [...all.keys()].flatMap((key) => (key.startsWith(head) ? [parsed(all.get(key) ?? '') as T] : []))
  const byTime = (a: { readonly given: string }, b: { readonly given: string }) => a.given.localeCompare(b.given)
  return {
    orders: of<Order>('order/').sort(byTime),
    marks: of<RoomMark>('mark/').sort(byTime),
    grades: of<RoomGrade>('grade/').sort(byTime),
    withdrawn: new Set(of<{ id: string }>('withdrawn/').map(({ id }) => id)),
    shown: new Set(of<MarksShown>('shown/').map(({ runId }) => runId)),
  }
}
