/** What is collected of a run, event by event, for its debrief: all that its state at the end does not hold. */

import type { Pack } from '../../pack/checklist.ts'
import type { EventType, RunEvent } from '../core/events.ts'
import type { RunState, WatchState } from '../core/state.ts'
import type { DebriefTransmission, DebriefTry } from './debriefTry.ts'
import type { LookWait } from './look/lookTimes.ts'

export interface DebriefRevision {
  /** As the pilot counts it; what a station gave has the number of what was accepted before. */
  readonly revision: number
  readonly status: string
  readonly label: string
  readonly t: number
  readonly reopened: readonly string[]
  /** Figures whose spoken value is another one than before. */
  readonly changed: readonly DebriefChange[]
  /** Label of the call of a station that gave them. */
  readonly givenBy?: string
  /** By a button from its sheet, not typed. */
  readonly takenOver: boolean
  /** What was read aloud, settled, warned of and acknowledged. */
  readonly notes: readonly string[]
}

export interface DebriefChange {
  readonly label: string
  /** As shown; left out while the run goes on. */
  readonly from?: string
  readonly to?: string
}

export interface DebriefRemark {
  readonly t: number
  readonly text: string
  /** The quirk of the simulator that the remark named. */
  readonly known?: string
}

export interface TooEarly {
  /** Ms from the start of the run. */
  readonly t: number
  /** As heard or typed; empty for a key. */
  readonly text: string
  /** What was called done. */
  readonly what: string
  /** The pack's caution: what had to come first. */
  readonly caution: string
  /** All had been done: only this much time was lacking. */
  readonly waitMs?: number
  /** A call before another of its exchange, and nothing more. */
  readonly isOrder?: true
  /** An answer or a call stands among its tries, too; a start is begun; else a step or a flow. */
  readonly of?: 'item' | 'call' | 'start'
}

/** A list that was called before its turn, each time that it was. */
export interface OutOfOrder {
  /** Ms from the start of the run. */
  readonly t: number
  readonly list: string
  /** What was due first, by its name. */
  readonly before: string
  /** It was run all the same. */
  readonly wasRun?: true
}

/** A flow or a briefing that was open when a list after it was called. */
export interface NotEnded {
  /** Ms from the start of the run. */
  readonly t: number
  /** Of the flow or the briefing. */
  readonly id: string
  /** "Cockpit flow not called complete before the before start list". */
  readonly text: string
  /** Nothing of it was done or said. */
  readonly isUnbegun?: true
}

/** A topic said with a wrong value. */
export interface WrongTopic {
  /** Ms from the start of the run. */
  readonly t: number
  /** The breath that it was said in; a key has none. */
  readonly said?: string
  /** "V one: 128 kt", as far as it can be told. */
  readonly right: readonly string[]
}

/** The end of a briefing was called with topics open. */
export interface EndRefused {
  readonly t: number
  readonly said?: string
  /** Labels: not said at all, and said wrong last. */
  readonly open: readonly string[]
}

export interface Tally {
  /** Tries by item, and by step of an exchange. */
  readonly answers: Map<string, DebriefTry[]>
  readonly transmissions: Map<string, DebriefTransmission[]>
  /** How often a station was asked to say its step again. */
  readonly askedAgain: Map<string, number>
  /** Each time that a topic of a briefing was said with a wrong value. */
  readonly wrongTopics: Map<string, WrongTopic[]>
  /** By briefing, each time that its end was called with topics open. */
  readonly endsRefused: Map<string, EndRefused[]>
  /** Topics that were not covered when their briefing was first called complete. */
  readonly leftOut: Map<string, ReadonlySet<string>>
  /** How often each item was opened again. */
  readonly reopened: Map<string, number>
  /** Every attempt at a watch as it stood last: one that is begun again leaves the one before. */
  readonly attempts: Map<string, { readonly id: string; readonly state: WatchState }>
  readonly revisions: DebriefRevision[]
  readonly remarks: DebriefRemark[]
  readonly situations: { readonly t: number; readonly label: string; readonly option: string }[]
  readonly outOfOrder: OutOfOrder[]
  readonly notEnded: NotEnded[]
  /** Everything was stopped by a word of the pilot's. */
  readonly stops: { readonly t: number; readonly text: string; readonly at: string }[]
  readonly tooEarly: TooEarly[]
  /** By edition: how often it was read, and when it was put away for good. */
  readonly papers: Map<string, { readonly looks: number; readonly putAwayAt?: number }>
  /** When each flow was first read out step by step. */
  readonly readOut: Map<string, number>
  /** When the value of an item was first given. */
  readonly givenAt: Map<string, number>
  /** Waits between challenges and their answers. */
  readonly looks: LookWait[]
  /** The item that the event before put. */
  justPut: string | undefined
  voided: number
  /** The last value read off aloud: the revision that follows takes it in. */
  readAloud: RunEvent<'stated'> | undefined
}

/** Of a run in which nothing has happened. */
export const emptyTally = (): Tally => ({
  answers: new Map(),
  transmissions: new Map(),
  askedAgain: new Map(),
  wrongTopics: new Map(),
  endsRefused: new Map(),
  leftOut: new Map(),
  reopened: new Map(),
  attempts: new Map(),
  revisions: [],
  remarks: [],
  situations: [],
  outOfOrder: [],
  notEnded: [],
  stops: [],
  tooEarly: [],
  papers: new Map(),
  readOut: new Map(),
  givenAt: new Map(),
  looks: [],
  justPut: undefined,
  voided: 0,
  readAloud: undefined,
})

/** One event with the run before and after it. */
export interface Moment<Type extends EventType = EventType> {
  readonly pack: Pack
  readonly event: RunEvent<Type>
  readonly before: RunState
  readonly after: RunState
  /** It was refused, since something had to come first. */
  readonly early?: TooEarly
}

/** Notes in the tally what the debrief has of an event. */
export type Tell<Type extends EventType> = (tally: Tally, moment: Moment<Type>) => void

export const count = (counts: Map<string, number>, name: string) => counts.set(name, (counts.get(name) ?? 0) + 1)

export const add = <T>(lists: Map<string, T[]>, name: string, one: T) =>
  lists.set(name, [...(lists.get(name) ?? []), one])

/** Items that an event opened again. */
export function reopenedBetween(before: RunState, after: RunState): string[] {
  return Object.entries(after.items)
    .filter(([id, item]) => item.status === 'reopened' && before.items[id]?.status !== 'reopened')
    .map(([id]) => id)
}
