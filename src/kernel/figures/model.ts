/**
 * Figures of one departure: what a pack declares, what a person enters, what comes out, and why.
 * Shapes only; `compute.ts` makes a `FigureSet` from a `FigureModel` and `Inputs`.
 */

import type { Accept, KindSpec, Value } from '../kinds/kind.ts'
import type { Problem } from '../problem.ts'
import type { Unit } from '../units.ts'

export const STATUSES = ['preliminary', 'final', 'amended'] as const
export type Status = (typeof STATUSES)[number]

/** What a person hands in as one revision. */
export interface Inputs {
  readonly status: Status
  readonly label?: string
  /** Input figures by name, in the unit that the pack declares for each. */
  readonly values: Readonly<Record<string, Value>>
  /** What the voices outside the crew will say of a figure, where it is not what is entered. */
  readonly said?: Readonly<Record<string, Value>>
  /** Loads by station name, in the pack's unit of weight. */
  readonly loads: Readonly<Record<string, number>>
  readonly situation?: Readonly<Record<string, string>>
  /** source -> figure -> stated value, beside what is computed or entered here. */
  readonly stated?: Readonly<Record<string, Readonly<Record<string, Value>>>>
  /** Figures whose sources differ, settled: which one counts, and why. */
  readonly settled?: Readonly<Record<string, Settlement>>
  readonly lastMinute?: readonly LastMinuteChange[]
}

/** `use` is a source, or our own value: `computed` or `entered`. */
export interface Settlement {
  readonly use: string
  readonly reason: string
  /** What each source stated when it was chosen: on other values the choice does not count any more. */
  readonly over?: Readonly<Record<string, Value>>
}

/** "Two more in row 12", "300 kg off the aft hold": by count of the station's standard weight, or by weight. */
export interface LastMinuteChange {
  readonly station: string
  readonly weight?: number
  readonly count?: number
}

/** One step of a value's account, in words a pilot follows, with the numbers used. */
export interface Reason {
  readonly text: string
  /** Figures this step used, by name. */
  readonly uses: readonly string[]
  /** Table cells used, where there was a look-up. */
  readonly cells?: readonly TableCell[]
}
export interface TableCell {
  readonly table: string
  readonly at: Readonly<Record<string, number | string>>
  readonly value: number
}

export interface ComputedFigure {
  readonly name: string
  /** As spoken and shown: "takeoff trim". */
  readonly label: string
  readonly spec: KindSpec
  readonly accept?: Accept
  /** As spoken (rounded); undefined where an input is missing or a table was left. */
  readonly value: Value | undefined
  /** Before rounding. */
  readonly exact?: number
  /** Unit for the screen: "kg", "kt", "% MAC". */
  readonly unit?: string
  /** The unit of `exact`, for conversions. */
  readonly measure?: Unit
  readonly why: readonly Reason[]
  /** Rests on inputs that are not final yet. */
  readonly preliminary: boolean
  /** Where sources state it too: each beside our own value, unrounded. */
  readonly sources?: readonly StatedValue[]
  /** It would be worked out of two accounts of the load: its value is the source's, or there is none. */
  readonly mixed?: Mixed
}

/** A figure was settled on a source, and the moment that would go with it is another's. */
export interface Mixed {
  readonly source: string
  /** Label of the figure that was settled. */
  readonly settled: string
  /** Another source that something was settled on; left out where the rest is of the stations. */
  readonly another?: string
}

export interface StatedValue {
  /** `computed` or `entered`, or the source's name. */
  readonly source: string
  readonly value: Value
  /** From our own value; left out for text. */
  readonly difference?: number
  readonly within: boolean
}

export interface FigureSet {
  readonly status: Status
  readonly label: string
  readonly figures: Readonly<Record<string, ComputedFigure>>
  /** Inputs missing, tables left, limits broken: each names the figure, the table, the axis and its ends. */
  readonly problems: readonly Problem[]
}

export interface FigureChange {
  readonly figure: string
  readonly label: string
  readonly from: Value | undefined
  readonly to: Value | undefined
  /** False where only the unrounded value moved: nothing reopens. */
  readonly spoken: boolean
}
