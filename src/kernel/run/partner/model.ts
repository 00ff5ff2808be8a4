/**
 * A partner who errs: what Otherseat, or a station, may say wrongly, what it was planned to say, and what came of it. A
 * chance is anything said that could have been wrong, whether it was or not: without those that were right nobody could
 * tell a good ear from one that objects to everything.
 */

import type { Value } from '../../kinds/kind.ts'

export const FAULT_KINDS = [
  /** Its own seat says another value. */
  'wrongValue',
  /** Its own seat says the value of an earlier revision. */
  'oldEdition',
  /** "Checked", where a value is asked for. */
  'valueless',
  'skipped',
  'completeEarly',
  /** A controller says another value after a right read-back. */
  'readBack',
  /** It answers a call that was for somebody else. */
  'otherCallSign',
  /** It reads another value back to a controller, who calls that correct. */
  'misread',
  /** It leaves out an element that must be read back, and the controller calls that correct. */
  'leftOut',
] as const
export type FaultKind = (typeof FAULT_KINDS)[number]

/** How hard it is to hear: how far a wrong value is from the right one. */
export const GRADES = ['obvious', 'middling', 'hard'] as const
export type Grade = (typeof GRADES)[number]

export interface Fault {
  readonly kind: FaultKind
  readonly grade: Grade
  /** The item, the list or the turn that it is in. */
  readonly about: string
  readonly figure?: string
  readonly said?: Value
  readonly right?: Value
  /** Items gone by. */
  readonly items?: readonly string[]
  /** Of a read-back: what is wrong in it, or missing. */
  readonly element?: string
  /** Of the slip of a station. */
  readonly seed?: number
}

export const CHANCE_KINDS = ['answer', 'move', 'completion', 'station', 'call', 'colleague'] as const
export type ChanceKind = (typeof CHANCE_KINDS)[number]

export interface Chance {
  /** Ms from the start of the run. */
  readonly t: number
  /** Of the event that it was said after: several chances may come of one. */
  readonly seq: number
  readonly kind: ChanceKind
  readonly about: string
  readonly fault?: Fault
  readonly objection?: { readonly t: number; readonly text: string }
}

/** What an objection is about. */
export const OBJECTIONS = ['value', 'skipped', 'notComplete', 'notForUs', 'any'] as const
export type ObjectionTo = (typeof OBJECTIONS)[number]

export const BREAKERS = ['cabin', 'radio', 'groundCrew', 'paper'] as const
export type Breaker = (typeof BREAKERS)[number]

/** How the pilot came back: at the item, one before it, by asking where, or somewhere else. */
export type ResumedAt = 'right' | 'before' | 'asked' | 'wrong'

/** An interruption on purpose, in the middle of an item. */
export interface PlannedBreak {
  readonly item: string
  readonly by: Breaker
  /** Otherseat names the item that it holds at. */
  readonly cue: boolean
}
export interface Break extends PlannedBreak {
  /** Ms from the start of the run: when it came, when the pilot had dealt with it, when the pilot came back. */
  readonly t: number
  readonly overAt?: number
  readonly resumedAt?: number
  readonly place?: ResumedAt
}

export interface PartnerState {
  /** An instructor has it err at the next chance; which way follows from this number. */
  readonly ordered?: number
  /** Goes with the next event. */
  readonly planned?: Fault
  readonly plannedBreak?: PlannedBreak
  readonly chances: readonly Chance[]
  /** Items that Otherseat has gone by and that nobody has come back to. */
  readonly goneBy: readonly string[]
  /** Lists that it has called complete without them. */
  readonly calledComplete: readonly string[]
  /** The item that Otherseat's seat has answered and that the pilot has not gone on from. */
  readonly answered?: string
  readonly breaks: readonly Break[]
}

export const NO_PARTNER: PartnerState = { chances: [], goneBy: [], calledComplete: [], breaks: [] }
