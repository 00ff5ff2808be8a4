/**
 * A stored log, read with care: it may come from a later edition, from a file that was cut, or from somebody's hand.
 * What is whole is given; the first event that is not says why, and nothing after it is read, for a log with a hole
 * in it is not the truth. Whether the pack's texts are what their digest says is for the caller to find out.
 */

import type { Pack } from '../../pack/checklist.ts'
import { type Shape, shown } from '../../shape.ts'
import { emptyRun } from './emptyRun.ts'
import { EVENT_FIELDS, STAMP } from './eventShapes.ts'
import type { RunEvent } from './events.ts'
import type { RunState } from './state.ts'
import { step } from './step.ts'

/** Of the events that this edition writes and reads. */
export const LOG_VERSION = 1

export interface LogProblem {
  /** From 1: the line of the file, or the event's place where there is no file. */
  readonly line: number
  /** "event 7: answered.evidence is missing". */
  readonly message: string
}

export interface LogRead {
  /** All events before the first that is wrong. */
  readonly events: readonly RunEvent[]
  readonly problem?: LogProblem
  /** The file ends in the middle of a line, as when the machine stopped while it was written; that line is left out. */
  readonly isCut: boolean
}

/** A log in JSON Lines, one event a line; blank lines do not count. */
export function readLogText(text: string): LogRead {
  const lines = text.replace(/^\uFEFF/, '').split('\n')
  const last = lines.findLastIndex((line) => line.trim() !== '')
  const values: { readonly line: number; readonly value: unknown }[] = []
  for (const [index, line] of lines.entries()) {
    if (line.trim() === '') continue
    try {
      values.push({ line: index + 1, value: JSON.parse(line) })
    } catch {
      const read = readNumbered(values)
      if (read.problem || index === last) return { ...read, isCut: !read.problem }
      return { ...read, problem: { line: index + 1, message: 'not JSON; one event a line would be right' } }
    }
  }
  return readNumbered(values)
}

/** Events as a database gives them. */
export function readEvents(values: readonly unknown[]): LogRead {
  return readNumbered(values.map((value, index) => ({ line: index + 1, value })))
}

export interface Replayed {
  readonly before: RunState
  readonly event: RunEvent
  readonly state: RunState
}

/** As much of a log as can be folded on its pack, whose event may name what the pack does not have. `seen` is told each step. */
export function replay(
  pack: Pack,
  events: readonly RunEvent[],
  seen: (step: Replayed) => void = () => undefined,
): { readonly state: RunState; readonly events: readonly RunEvent[]; readonly problem?: LogProblem } {
  let state = emptyRun(events[0]?.runId ?? '')
  for (const [index, event] of events.entries()) {
    const before = state
    try {
      state = step(pack, before, event).state
      seen({ before, event, state })
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error)
      const message = `event ${index} (${event.type}) cannot be replayed: ${why}`
      return { state: before, events: events.slice(0, index), problem: { line: index + 1, message } }
    }
  }
  return { state, events }
}

function readNumbered(values: readonly { readonly line: number; readonly value: unknown }[]): LogRead {
  const events: RunEvent[] = []
  for (const { line, value } of values) {
    const event = migrated(value)
    const wrong = wrongWith(event, events)
    if (wrong !== undefined)
      return { events, problem: { line, message: `event ${events.length}: ${wrong}` }, isCut: false }
    events.push(event as RunEvent)
  }
  return { events, isCut: false }
}

/** Says what keeps a value from being the next event of this log. */
function wrongWith(value: unknown, before: readonly RunEvent[]): string | undefined {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return `${shown(value)} is no event`
  const event = value as Readonly<Record<string, unknown>>
  return wrongVersion(event) ?? wrongShape(event) ?? wrongPlace(value as RunEvent, before)
}

function wrongVersion({ v }: Readonly<Record<string, unknown>>): string | undefined {
  if (v === LOG_VERSION) return undefined
  if (typeof v !== 'number') return `v is ${v === undefined ? 'missing' : shown(v)}; ${LOG_VERSION} would be right`
  return `it has version ${v}, and this edition reads version ${LOG_VERSION}: ${v > LOG_VERSION ? 'a later edition wrote it' : 'no edition wrote it'}`
}

function wrongShape(event: Readonly<Record<string, unknown>>): string | undefined {
  const { type } = event
  const fields: Readonly<Record<string, Shape<unknown>>> | undefined =
    typeof type === 'string' && Object.hasOwn(EVENT_FIELDS, type)
      ? EVENT_FIELDS[type as keyof typeof EVENT_FIELDS]
      : undefined
  if (!fields)
    return type === undefined ? 'type is missing' : `${shown(type)} is not a type of event that this edition knows`
  for (const [name, shape] of Object.entries<Shape<unknown>>({ ...STAMP, ...fields })) {
    const wrong = shape(event[name])
    if (wrong !== undefined) return `${name in STAMP ? '' : `${type}.`}${name}${wrong}`
  }
  return Number.isNaN(Date.parse(String(event.wall))) ? `wall is ${shown(event.wall)}, not a time` : undefined
}

function wrongPlace(event: RunEvent, before: readonly RunEvent[]): string | undefined {
  const [first] = before
  const last = before.at(-1)
  if (event.seq !== before.length) return `its number is ${event.seq}; ${before.length} would be right here`
  if (!first) return event.type === 'runStarted' ? undefined : `a log begins with runStarted, not with ${event.type}`
  if (event.runId !== first.runId) return `it is of another run, ${shown(event.runId)}`
  if (event.type === 'runStarted') return 'the run has begun already'
  return last?.type === 'ended' ? 'the run has ended before it' : undefined
}

/** Events in the form of earlier editions -> the same in the present one. */
function migrated(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value
  const event = value as Readonly<Record<string, unknown>>
  // Timers of interlocks were told by their listening turn; what has passed is said in the events that follow.
  if (event.type === 'timeUp' && event.of === undefined && typeof event.order === 'number') return { ...event, of: '' }
  return value
}
