/** Tables in a pasted text as a screen shows them: as read, with what is open, and how a figure looks them up. */

import { showUnit } from '../../kernel/units.ts'
import { draftTable } from '../../packs/paper/draftTable.ts'
import { counted } from '../../packs/paper/names.ts'
import { type TableText, tableOf } from '../../packs/paper/tableOf.ts'
import { tablesIn } from '../../packs/paper/tablesIn.ts'

export interface PastedTable {
  readonly name: string
  /** Its first line in the text, from 1. */
  readonly line: number
  readonly axes: readonly ShownAxis[]
  /** Row by row along the first axis; an open cell is empty. */
  readonly cells: readonly (readonly string[])[]
  readonly unit: string
  /** `line` is that of the whole text. */
  readonly questions: readonly { readonly line: number; readonly text: string }[]
  /** As it was pasted, in the lines where it stood. */
  readonly pasted: string
  /** All of tables.yaml with this table. */
  readonly yaml: string
  /** A figure that looks it up, as a line of figures.yaml. */
  readonly example: string
}

export interface ShownAxis {
  readonly label: string
  readonly unit: string
  readonly values: readonly string[]
}

export function pastedTables(text: string): PastedTable[] {
  const taken = new Set<string>()
  return tablesIn(text).flatMap((found) => {
    // Empty lines above it, so that its questions have the lines of the whole text.
    const placed = '\n'.repeat(found.line - 1) + found.text
    const named = draftTable(placed)
    const name = named && counted(named.name, taken)
    const draft = name === named?.name ? named : draftTable(placed, name)
    if (!draft) return []
    const table = tableOf(draft)
    const cellsOf = (row: TableText['cells'][number]) => (Array.isArray(row) ? row : [row])
    return [
      {
        name: draft.name,
        line: found.line,
        pasted: placed,
        axes: table.axes.map(({ name, label, unit, at, choices }) => ({
          label: label ?? name,
          unit: unit && unit !== 'none' ? showUnit(unit) : '',
          values: (at ?? choices ?? []).map(String),
        })),
        cells: table.cells.map((row) => cellsOf(row).map((cell) => (cell === null ? '' : String(cell)))),
        unit: table.unit === 'none' ? '' : showUnit(table.unit),
        questions: draft.questions,
        yaml: draft.yaml,
        example: exampleOf(draft.name, table),
      },
    ]
  })
}

/** As a figure of the shape that the cells have. */
function exampleOf(name: string, { unit, axes, cells }: TableText): string {
  const numbers = cells.flat().filter((cell): cell is number => typeof cell === 'number')
  const decimals = Math.max(0, ...numbers.map((cell) => String(cell).split('.')[1]?.length ?? 0))
  const kind = decimals === 0 ? 'kind: integer' : `kind: decimal, decimals: ${decimals}`
  const at = axes.map((axis) => `${axis.name}: ${axis.name}`).join(', ')
  const label = name === 'table' ? 'value' : name
  return `${label}: {label: ${label}, ${kind}, unit: ${JSON.stringify(unit)}, derived: {by: lookUp, table: ${name}, at: {${at}}}}`
}
