/** What a pack declares about figures: inputs, derived figures, stations, tables. Shapes only; `packs/` reads and checks them. */

import type { Accept, KindSpec, Value } from '../kinds/kind.ts'
import type { Rounding } from '../numbers/rounding.ts'
import type { Unit } from '../units.ts'
import type { Condition } from './condition.ts'

export interface Station {
  readonly name: string
  readonly label: string
  /** In the pack's unit of length, aft of the datum. */
  readonly arm: number
  readonly max?: number
  /** Standard weight of one person (or piece) here, for last-minute changes by count. */
  readonly each?: number
}

/** A figure's name, or a number in the unit that the calculator works in. */
export type Operand = string | number

/** What a derivation is by that consists of cases. */
export const CASES = 'cases'

/** How a figure is computed: a calculator by name (`calculators.ts`) and what it takes. */
export interface Derivation {
  readonly by: string
  readonly takes: Readonly<Record<string, Operand | readonly Operand[]>>
  /** Names of all figures among what it takes. */
  readonly uses: readonly string[]
  /** For look-ups: the table, and what stands at each of its axes. */
  readonly table?: string
  readonly at?: Readonly<Record<string, Operand>>
  readonly envelope?: string
  /** Stations meant; all of them where none is named. */
  readonly stations?: readonly string[]
  readonly tank?: string
  /** In place of all that: the first whose condition holds computes it. */
  readonly cases?: readonly DerivedCase[]
}

export interface DerivedCase {
  readonly when?: Condition
  readonly derivation: Derivation
}

export interface FigureDeclaration {
  readonly name: string
  readonly label: string
  readonly spec: KindSpec
  readonly accept?: Accept
  /** For the screen: "kg", "% MAC". */
  readonly unit?: string
  /** The unit of its value in inputs, tables and calculators. */
  readonly measure?: Unit
  /** Other ways to name it aloud, for "confirm <figure>". */
  readonly alsoCalled: readonly string[]
  /** True where a person enters it, if only where no station gives it. */
  readonly input: boolean
  /** Heading it stands under where it is entered. */
  readonly group?: string
  /** False where it may be left out. */
  readonly required?: boolean
  /** A station gives it in an exchange: one of these by chance, where the inputs do not say which. */
  readonly given?: GivenRule
  /** Entered, but a station says a later value than the papers: another number, at most so far away. */
  readonly later?: LaterRule
  /** The same in every departure: the value in the pack. */
  readonly constant?: Value
  readonly derived?: Derivation
  /** Read off a gauge in the run, or noted: where it must lie, by numbers or by figures; with neither it is noted as it is. */
  readonly read?: { readonly min?: Operand; readonly max?: Operand }
  /** From the exact value to the spoken one. */
  readonly round?: Rounding
  /** The normal band of an entered value: outside it entry asks again. */
  readonly plausible?: { readonly min?: number; readonly max?: number }
  /** Beyond these the figure is a broken limit, to be acknowledged: numbers, or figures that limit it. */
  readonly limits?: { readonly min?: Operand | readonly Operand[]; readonly max?: Operand | readonly Operand[] }
  /** A change from one revision to the next that is larger than this is probably a gross error. */
  readonly gross?: number
  /** The pilot's own value is asked for before Otherseat's counts. */
  readonly ownFirst?: boolean
  /** Sources that may state it beside our own value, and the difference of numbers that needs no settling. */
  readonly stated?: { readonly sources: readonly string[]; readonly tolerance?: number }
}

/** Between two entries a table is linear, or is read at one of them: the next higher, the next lower, the nearest. */
export const READ_AT = ['higher', 'lower', 'nearest'] as const

/** A cell for which nothing is given, as a card has it. */
export const NOT_GIVEN = '---'

/** Numbers rise strictly; choices are met exactly. */
export type Axis =
  | {
      readonly name: string
      readonly label: string
      readonly unit: Unit
      readonly at: readonly number[]
      readonly read?: (typeof READ_AT)[number]
    }
  | { readonly name: string; readonly label: string; readonly choices: readonly string[] }

export interface Table {
  readonly name: string
  readonly label: string
  readonly unit: Unit
  /** One to four. */
  readonly axes: readonly Axis[]
  /** Row by row: the last axis changes fastest. NaN where nothing is given. */
  readonly cells: readonly number[]
}

/** Where the CG may be at each weight, in one condition (takeoff, landing, zero fuel). */
export interface Envelope {
  readonly name: string
  readonly label: string
  readonly unit: Unit
  /** By rising weight, in the pack's unit; between rows both limits are interpolated. */
  readonly limits: readonly { readonly weight: number; readonly forward: number; readonly aft: number }[]
}

export interface Tank {
  readonly name: string
  readonly label: string
  readonly capacity: number
  /** One arm, or arms by the quantity in the tank. */
  readonly arms: readonly { readonly quantity: number; readonly arm: number }[]
}

/** All that the calculators work with besides a departure's inputs. */
export interface Basis {
  /** Names of the figures in an order in which each comes after what it rests on. */
  readonly order: readonly string[]
  readonly units: { readonly weight: 'kg' | 'lb'; readonly arm: 'm' | 'in' }
  readonly mac?: { readonly leadingEdge: number; readonly length: number }
  readonly tables: Readonly<Record<string, Table>>
  readonly envelopes: Readonly<Record<string, Envelope>>
  /** Filled group by group, the tanks of one group alike; burned in the reverse order. */
  readonly tanks: readonly (readonly Tank[])[]
  /** index = weight x (arm - reference) / divisor + constant. */
  readonly index?: { readonly reference: number; readonly divisor: number; readonly constant: number }
  /** Figures of which none may be above the next: V one, rotate speed, V two. */
  readonly orders: readonly (readonly string[])[]
  /** What a last-minute change may be without a new load sheet, in weight, all changes taken together. */
  readonly lastMinute?: { readonly most: number }
  readonly deal?: DealRules
  /** Situations as they are where nothing says otherwise. */
  readonly initially?: Readonly<Record<string, string>>
}

/** `of`: by the value of another figure, such as holding points by runway. */
export type GivenRule =
  | DealRange
  | readonly Value[]
  | { readonly by: string; readonly of: Readonly<Record<string, readonly Value[]>> }

export interface LaterRule {
  readonly most: number
  readonly step: number
  /** Not below this. */
  readonly min?: number
}

/** From what a departure is dealt by seed. */
export interface DealRules {
  readonly loads: Readonly<Record<string, DealRange>>
  readonly values: Readonly<Record<string, DealRange | readonly Value[]>>
  readonly situation: Readonly<Record<string, readonly string[]>>
  /** Figures that must not be below this in any draw: no tower gives a runway with the wind behind. */
  readonly atLeast: Readonly<Record<string, number>>
  readonly traps: readonly DealTrap[]
}
export interface DealRange {
  readonly min: number
  readonly max: number
  readonly step: number
}
export const TRAP_KINDS = ['staleTrim', 'otherRunway', 'wrongTotal', 'oldSheet'] as const
export interface DealTrap {
  readonly kind: (typeof TRAP_KINDS)[number]
  /** The figure that the trap is about: the trim, the runway, the total. */
  readonly figure: string
  /** Figures that move with it and belong to the trap. */
  readonly also: readonly string[]
  /** For a wrong total and an old sheet: who states it. */
  readonly source?: string
  /** How far a wrong total is off at least, as a share of it: 0.01. */
  readonly least?: number
}

export interface FigureModel {
  readonly declarations: Readonly<Record<string, FigureDeclaration>>
  readonly stations: readonly Station[]
  /** Absent where nothing is computed: all figures are entered as they are. */
  readonly basis?: Basis
}
