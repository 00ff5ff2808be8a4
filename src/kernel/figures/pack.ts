/** What a pack declares about figures: inputs, derived figures, stations, tables. */

import type { Accept, KindSpec } from '../kinds/kind.ts'

export interface Station {
  readonly name: string
  readonly label: string
  /** In the pack's unit of length, aft of the datum. */
  readonly arm: number
  readonly max?: number
}

export interface FigureDeclaration {
  readonly name: string
  readonly label: string
  readonly spec: KindSpec
  readonly accept?: Accept
  readonly unit?: string
  /** Other ways to name it aloud, for "confirm <figure>". */
  readonly alsoCalled: readonly string[]
  /** True where a person enters it. */
  readonly input: boolean
}

export interface FigureModel {
  readonly declarations: Readonly<Record<string, FigureDeclaration>>
  readonly stations: readonly Station[]
}
