/** What a calculator is: what it takes and gives, in which units, and the work it is handed. */

import type { Problem } from '../problem.ts'
import type { Unit } from '../units.ts'
import type { ComputedFigure, Inputs, Reason } from './model.ts'
import type { Basis, Derivation, FigureModel } from './pack.ts'

/**
 * The unit a calculator works in: a fixed one; the pack's unit of weight, arm or their product; `same` as the
 * figure that it computes; or `any`, for values that are looked up as they are.
 */
export type WorkUnit = Unit | 'weight' | 'arm' | 'moment' | 'same' | 'any'

export interface Parameter {
  readonly unit: WorkUnit
  readonly optional?: true
  /** Takes a list of figures. */
  readonly many?: true
}

/** What of the pack a calculator needs besides its operands. */
export type Need = 'table' | 'envelope' | 'mac' | 'tanks' | 'tank' | 'index' | 'loads'

export interface Calculator {
  /** One sentence, for pack authors. */
  readonly about: string
  readonly takes: Readonly<Record<string, Parameter>>
  readonly needs?: readonly Need[]
  /** A weight goes with its own moment only: what it takes must be of one account of the load. */
  readonly ofOneLoad?: true
  readonly gives: WorkUnit
  readonly run: (work: Work) => Outcome
}

/** What a calculator works on; `work.ts` reads operands from it in the units of their parameters. */
export interface Work {
  readonly model: FigureModel
  readonly basis: Basis
  readonly inputs: Inputs
  readonly calculator: Calculator
  readonly derivation: Derivation
  /** The figure being computed. */
  readonly figure: { readonly name: string; readonly label: string; readonly unit: Unit }
  /** One load for each of the model's stations, in their order; undefined where none is given. */
  readonly loads: readonly (number | undefined)[]
  /** Figures computed before it. */
  readonly done: Readonly<Record<string, ComputedFigure>>
}

export type Outcome =
  | {
      readonly value: number | string
      readonly why: readonly Reason[]
      /** Where it is not the calculator's own. */
      readonly unit?: Unit
      /** A limit that the value breaks. */
      readonly breach?: Problem
    }
  | { readonly failed: Problem }

export function failed(code: string, message: string): { readonly failed: Problem } {
  return { failed: { code, message, severity: 'error' } }
}
