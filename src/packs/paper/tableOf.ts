/** The table that stands in the text of a draft. */

import { parse } from 'yaml'
import type { Unit } from '../../kernel/units.ts'
import type { TableDraft } from './draftTable.ts'

export interface TableText {
  readonly unit: Unit
  readonly axes: readonly {
    readonly name: string
    readonly label?: string
    readonly unit?: Unit
    readonly at?: readonly number[]
    readonly choices?: readonly string[]
  }[]
  /** Nested in the order of the axes; null where one is open. */
  readonly cells: readonly (number | null | readonly (number | null)[])[]
}

export const tableOf = ({ name, yaml }: TableDraft): TableText => parse(yaml).tables[name]
