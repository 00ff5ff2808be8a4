/**
 * Cells that do not go with those around them: a digit that slipped and still keeps to the trend. Over each two axes a
 * smooth table has mixed second differences that are much alike; one cell that is off shows in all that it is part of,
 * and in no other.
 */

import type { Problem } from '../../kernel/problem.ts'
import type { TablesText } from '../tablesSchema.ts'
import { advising, type File } from './written.ts'

type TableText = TablesText['tables'][string]
type Indexes = readonly number[]

/** How much larger than any other a difference must be. */
const FAR = 4
/** Differences that a cell has no part in: with fewer nobody knows what is usual. */
const LEAST_OTHERS = 3
/** Each cell is compared with all of its rows and columns: larger tables would take too long. */
const MOST_CELLS = 600

export function adviseCells({ source, value }: File<TablesText>): Problem[] {
  const problems: Problem[] = []
  const advise = advising(source, problems)
  for (const [name, table] of Object.entries(value.tables)) {
    for (const { indexes, cell, meant } of strangersIn(table)) {
      const near = Number(meant.toPrecision(3))
      const message = `table ${name}: ${cell} does not go with the cells around it, by which it would be near ${near}; is a digit wrong?`
      advise('cell', ['tables', name, 'cells', ...indexes], message)
    }
  }
  return problems
}

interface Stranger {
  readonly indexes: Indexes
  readonly cell: number
  readonly meant: number
}

/** A table with its cells in one row; a step along an axis is so many cells far. */
interface Grid {
  readonly cells: readonly number[]
  readonly sizes: readonly number[]
  readonly steps: readonly number[]
  /** One in the last digit that any cell has. */
  readonly digit: number
}

function gridOf({ axes, cells }: TableText): Grid {
  const sizes = axes.map((axis) => ('choices' in axis ? axis.choices.length : axis.at.length))
  const steps = sizes.map((_, axis) => sizes.slice(axis + 1).reduce((product, size) => product * size, 1))
  const flat = (cells as unknown[]).flat(3).map(Number)
  const decimals = flat.map((cell) => (String(cell).split('.')[1] ?? '').length)
  return { cells: flat, sizes, steps, digit: 10 ** -Math.max(...decimals) }
}

function strangersIn(table: TableText): Stranger[] {
  const grid = gridOf(table)
  const { cells, sizes, steps } = grid
  if (cells.length > MOST_CELLS || cells.some(Number.isNaN)) return []
  const pairs = sizes.flatMap((_, one) => sizes.flatMap((_, other) => (other > one ? [[one, other] as const] : [])))
  const smooth = pairs.filter(([one, other]) => [one, other].some((axis) => !('choices' in (table.axes[axis] ?? {}))))
  return cells.flatMap((cell, at) => {
    const indexes = sizes.map((size, axis) => Math.floor(at / (steps[axis] ?? 1)) % size)
    const slips = smooth.flatMap((pair) => slipOver(grid, pair, at, indexes) ?? [])
    const [first] = slips
    const isOff = first !== undefined && slips.every((slip) => slip !== 0 && slip > 0 === first > 0)
    return isOff ? [{ indexes, cell, meant: cell - first }] : []
  })
}

/** How far a cell is off by the differences over two axes; 0 where it is not, undefined where it cannot be told. */
function slipOver(
  { cells, sizes, steps, digit }: Grid,
  [one, other]: readonly [number, number],
  place: number,
  indexes: Indexes,
): number | undefined {
  const [down, right] = [steps[one] ?? 0, steps[other] ?? 0]
  const [row, column] = [indexes[one] ?? 0, indexes[other] ?? 0]
  const corner = place - row * down - column * right
  const own: number[] = []
  let most = 0
  let others = 0
  for (let i = 0; i + 1 < (sizes[one] ?? 0); i++) {
    for (let j = 0; j + 1 < (sizes[other] ?? 0); j++) {
      const at = corner + i * down + j * right
      const along = (offset: number) => (cells[at + offset + right] ?? 0) - (cells[at + offset] ?? 0)
      const difference = along(down) - along(0)
      const isPart = (row === i || row === i + 1) && (column === j || column === j + 1)
      if (isPart) own.push(row - i === column - j ? difference : -difference)
      else {
        most = Math.max(most, Math.abs(difference))
        others++
      }
    }
  }
  const [first = 0] = own
  if (others < LEAST_OTHERS || own.length === 0) return undefined
  const least = FAR * Math.max(most, digit)
  const isOff = own.every((slip) => Math.abs(slip) > least && slip > 0 === first > 0)
  return isOff ? own.reduce((sum, slip) => sum + slip, 0) / own.length : 0
}
