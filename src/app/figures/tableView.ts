/** A table with the cells in use, cut down to two axes for the screen. */

import { cellAt } from '../../kernel/figures/lookup.ts'
import type { TableCell } from '../../kernel/figures/model.ts'
import type { Axis, Table } from '../../kernel/figures/pack.ts'
import { captionOf, cellWriter, entriesOf, titleOf } from '../../kernel/figures/tableShown.ts'
import type { ComputedView } from './computedView.ts'

export interface TableView {
  readonly figure: string
  /** "takeoff trim, units". */
  readonly caption: string
  /** "flap 12, altitude 3000", where axes beyond the second were cut at the value in use. */
  readonly at: string
  readonly rowAxis: string
  readonly columnAxis: string
  readonly columns: readonly string[]
  readonly rows: readonly {
    readonly head: string
    readonly cells: readonly { readonly shown: string; readonly used: boolean }[]
  }[]
}

/** The table a figure was read from; undefined where there is none, or while it is hidden. */
export function tableView(figure: ComputedView, tables: Readonly<Record<string, Table>>): TableView | undefined {
  const used = figure.why.flatMap(({ cells }) => cells ?? [])
  const table = tables[used[0]?.table ?? '']
  if (!table) return undefined
  const cuts = cutsOf(table, used)
  const [rows, columns] = table.axes.filter((axis) => !cuts.has(axis))
  if (!rows) return undefined
  const isUsed = (cell: TableCell) => used.some(({ at }) => JSON.stringify(at) === JSON.stringify(cell.at))
  const written = cellWriter(table)
  const cellsOf = (row: number) =>
    entriesOf(columns).map((_, column) => {
      const indexes = table.axes.map((axis) => cuts.get(axis) ?? (axis === rows ? row : column))
      const cell = cellAt(table, indexes)
      return { shown: written(cell.value), used: isUsed(cell) }
    })
  return {
    figure: figure.label,
    caption: captionOf(table),
    at: [...cuts].map(([axis, index]) => `${axis.label} ${entriesOf(axis)[index]}`).join(', '),
    rowAxis: titleOf(rows),
    columnAxis: columns ? titleOf(columns) : '',
    columns: entriesOf(columns),
    rows: entriesOf(rows).map((head, row) => ({ head, cells: cellsOf(row) })),
  }
}

/** Axes beyond the second, each with its entry in use: first choices, then those met exactly, then the last ones. */
function cutsOf(table: Table, used: readonly TableCell[]): ReadonlyMap<Axis, number> {
  const still = (axis: Axis) => new Set(used.map(({ at }) => at[axis.name])).size === 1
  const rank = (axis: Axis) => ('choices' in axis ? 0 : still(axis) ? 1 : 2)
  const ranked = table.axes.toReversed().toSorted((one, other) => rank(one) - rank(other))
  const cut = ranked.slice(0, Math.max(0, table.axes.length - 2))
  return new Map(cut.map((axis) => [axis, entriesOf(axis).indexOf(String(used[0]?.at[axis.name]))]))
}
