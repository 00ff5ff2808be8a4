/** What the entries of each document are: their keys, and the shapes of their texts. Server and pages hold to the same. */

import { EVENT_FIELDS, injection } from '../kernel/run/core/eventShapes.ts'
import type { RunEvent } from '../kernel/run/core/events.ts'
import type { Injection } from '../kernel/run/core/injections.ts'
import { listOf, number, object, optional, type Shape, text } from '../kernel/shape.ts'
import { GRADE_FIELDS, type Grade } from '../kernel/training/grades.ts'
import type { DocumentKind } from './documents.ts'

/** One event of a run, at "RUN/NUMBER". */
export interface LogEntry {
  readonly event: RunEvent
  /** Where the run is after it, by the pack's ids: the item, and the list or activity around it. */
  readonly at?: readonly string[]
}

/** Something to happen in a trainee's run, at "order/ID". */
export interface Order {
  readonly id: string
  readonly seat: string
  readonly runId: string
  /** Who gave it. */
  readonly by: string
  /** ISO 8601. */
  readonly given: string
  readonly what: Injection
  /** The item or activity that the run has to come to first; left out: at once. */
  readonly at?: string
}

/** What the instructor noted of a moment, at "mark/ID". */
export interface RoomMark {
  readonly id: string
  readonly seat: string
  readonly runId: string
  readonly by: string
  readonly given: string
  readonly words: string
  /** The last event that the instructor had seen, and its time, ms from the start of the run. */
  readonly seq: number
  readonly t: number
  /** Where the run was, by its name. */
  readonly place: string
}

/** What the instructor gave in the run, at "grade/ID". */
export interface RoomGrade extends Grade {
  readonly seat: string
}

/** At "shown/RUN": the marks and grades of that run are for the trainee's debrief, too. */
export interface MarksShown {
  readonly seat: string
  readonly runId: string
}

/** At "withdrawn/ID": an order that waits is not to be given any more. */
export interface Withdrawn {
  readonly id: string
}

/** At its id: a trainee in the room. */
export interface SeatEntry {
  readonly name: string
  readonly joinedAt: number
}

const order = object<Order>({
  ...{ id: text, seat: text, runId: text, by: text, given: text },
  what: injection,
  at: optional(text),
})
const mark = object<RoomMark>({
  ...{ id: text, seat: text, runId: text, by: text, given: text, words: text },
  ...{ seq: number, t: number, place: text },
})

const grade = object<RoomGrade>({ ...GRADE_FIELDS, seat: text })

export const orderKey = (id: string) => `order/${id}`
export const markKey = (id: string) => `mark/${id}`
export const gradeKey = (id: string) => `grade/${id}`
export const shownKey = (runId: string) => `shown/${runId}`
export const withdrawnKey = (id: string) => `withdrawn/${id}`
export const logKey = (runId: string, seq: number) => `${runId}/${seq}`

/** By the beginning of the key, what the rest of it has to be in the text. */
const DESK: Readonly<Record<string, { readonly shape: Shape<object>; readonly id: 'id' | 'runId' }>> = {
  order: { shape: order, id: 'id' },
  mark: { shape: mark, id: 'id' },
  grade: { shape: grade, id: 'id' },
  shown: { shape: object<MarksShown>({ seat: text, runId: text }), id: 'runId' },
  withdrawn: { shape: object<Withdrawn>({ id: text }), id: 'id' },
}

const ID = /^[\w-]{1,40}$/
/** UTF-16 units: a log begins with the texts of its pack. */
const LONGEST: Readonly<Record<DocumentKind, number>> = { log: 2_000_000, desk: 50_000, orders: 50_000, seats: 500 }

/** Why this may not stand in a document of the kind; undefined where it may. */
export function wrongEntry(kind: DocumentKind, key: string, value: string): string | undefined {
  if (value.length > LONGEST[kind]) return 'an entry is too long'
  const entry = parsed(value)
  if (typeof entry !== 'object' || entry === null) return 'an entry is no JSON object'
  const [head = '', ...rest] = key.split('/')
  const id = rest.join('/')
  if (kind === 'log') return wrongLogEntry(entry as Partial<LogEntry>, head, id)
  if (kind !== 'desk') return 'nothing is written here'
  const known = Object.hasOwn(DESK, head) ? DESK[head] : undefined
  if (!known || !ID.test(id)) return 'an entry has an unknown key'
  const wrong = known.shape(entry)
  if (wrong !== undefined) return `an entry of the desk: ${head}${wrong}`
  return (entry as Readonly<Record<string, unknown>>)[known.id] === id ? undefined : 'an entry stands at another key'
}

const seat = object<SeatEntry>({ name: text, joinedAt: number })

/** The same of what a server writes: orders that it handed on, marks that are shown, seats. */
export function wrongServerEntry(kind: DocumentKind, key: string, value: string): string | undefined {
  if (kind === 'orders')
    return /^(order|mark|grade)\//.test(key) ? wrongEntry('desk', key, value) : 'an entry has an unknown key'
  if (kind !== 'seats') return wrongEntry(kind, key, value)
  if (value.length > LONGEST.seats || !ID.test(key)) return 'an entry has an unknown key'
  const wrong = seat(parsed(value))
  return wrong === undefined ? undefined : `a seat${wrong}`
}

function wrongLogEntry({ event, at }: Partial<LogEntry>, runId: string, seq: string): string | undefined {
  if (!ID.test(runId) || !/^\d{1,7}$/.test(seq)) return 'an entry has an unknown key'
  if (typeof event !== 'object' || event === null || !Object.hasOwn(EVENT_FIELDS, String(event.type)))
    return 'an entry is no event of a run'
  if (event.runId !== runId || event.seq !== Number(seq)) return 'an entry stands at another key'
  return optional(listOf(text))(at) === undefined ? undefined : 'a place is no list of names'
}

/** Undefined where it is no JSON. */
export function parsed(value: string): unknown {
  try {
    return JSON.parse(value)
  } catch {
    return undefined
  }
}
