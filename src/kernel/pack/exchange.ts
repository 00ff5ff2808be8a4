/**
 * What is said with a voice outside the crew (a clearance, the ground crew, taxi), the orders between
 * the seats, which have the same form, and the briefing. Shapes only; see `exchanging.ts` and `briefing.ts`.
 */

import type { Condition } from '../figures/condition.ts'
import type { Radio } from '../kinds/radio.ts'
import type { Never } from '../response/contraries.ts'
import type { Response } from '../response/response.ts'
import type { Interlock } from './condition.ts'
import type { Role } from './roles.ts'
import type { Template } from './template.ts'

/** Who speaks: `otherseat` for an order between the seats. */
export interface Station {
  readonly role: Role
  /** As called: "Sandmere Delivery". */
  readonly name: string
}

/** What a station says, in either phraseology. */
export type Wording = Readonly<Record<Radio, Template>>

/** One thing that a transmission says, and how it is read back. */
export interface Element {
  /** Unique in its turn. */
  readonly id: string
  /** As named aloud: "squawk" in "say again squawk". */
  readonly label: string
  readonly alsoCalled: readonly string[]
  readonly says: Wording
  /** Absent where it need not be read back, all optional where it may be. */
  readonly readBack?: Readonly<Record<Radio, Response>>
  readonly when?: Condition
}

/** The pilot calls, the station says something, the pilot reads it back: any of the three may be absent. */
export interface ExchangeTurn {
  /** Stable: `<exchange id>.<turn id>`. */
  readonly id: string
  /** For the screen and for "what is left": "push clearance". */
  readonly label: string
  /** What the pilot says first; figures in it are compared. Absent: the station begins. */
  readonly calls?: Response
  /** Other states that what is said could be in, as for an item. */
  readonly states?: readonly (readonly string[])[]
  /** What the station says before the elements: the call sign, "cleared". */
  readonly opens?: Wording
  readonly elements: readonly Element[]
  /** Elements in the order in which FAA phraseology has them, where that is another one. */
  readonly faaOrder?: readonly string[]
  /** Said when all is right; without it a controller says "read back correct", others nothing. */
  readonly closes?: Wording
  /** Figures that hold from now on as they were said. */
  readonly sets: readonly string[]
  /** The aircraft moves from here, or has come to rest. */
  readonly moves?: 'begins' | 'ends'
  /** Name of the clearance that it gives: `push`. */
  readonly clears?: string
  readonly when?: Condition
  readonly interlocks?: readonly Interlock[]
  readonly caution?: string
}

export interface Exchange {
  readonly type: 'exchange'
  readonly id: string
  readonly name: string
  readonly station: Station
  /** `free`: the pilot may take the turns in any order that their interlocks allow. */
  readonly order: 'fixed' | 'free'
  readonly turns: readonly ExchangeTurn[]
  readonly when?: Condition
  readonly caution?: string
}

/** One topic of a briefing: named by any of its ways, with its values compared. */
export interface Topic {
  /** Stable: `<briefing id>.<topic id>`. */
  readonly id: string
  readonly label: string
  /** Ways to name it; figures in them are compared. */
  readonly say: readonly Response[]
  /** What must never be said of it. */
  readonly never?: readonly Never[]
  readonly when?: Condition
}

export interface Briefing {
  readonly type: 'briefing'
  readonly id: string
  readonly name: string
  readonly topics: readonly Topic[]
  /** Words that end it: "briefing complete". */
  readonly ends: Response
  readonly when?: Condition
  readonly caution?: string
}
