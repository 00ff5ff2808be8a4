/** A table of one or two axes as a grid whose cells and axes can be typed, and pasted from a spreadsheet. */

import { NOT_GIVEN } from '../../kernel/figures/pack.ts'
import type { Path } from '../source.ts'
import type { Edit } from './edits.ts'
import { isNamed } from './things.ts'
import { numberTyped } from './typed.ts'

export interface GridCell {
  readonly path: Path
  readonly value: string
  /** "weight 5000, flap 15". */
  readonly label: string
  readonly isText: boolean
}

export interface Grid {
  readonly path: Path
  /** Names of the axes with their units: down, and across where there are two. */
  readonly down: string
  readonly across: string
  readonly head: readonly GridCell[]
  readonly rows: readonly { readonly head: GridCell; readonly cells: readonly GridCell[] }[]
}

/** Undefined where it has other axes, or is ragged. */
export function gridOf(table: unknown, path: Path): Grid | undefined {
  if (!isNamed(table) || !Array.isArray(table.axes) || !Array.isArray(table.cells)) return undefined
  const axes = table.axes.map(axisOf)
  const [down, across] = axes
  if (!down || axes.length > 2 || axes.includes(undefined)) return undefined
  const cells = table.cells as readonly unknown[]
  if (cells.length !== down.at.length) return undefined
  const width = across?.at.length ?? 1
  if (across && cells.some((row) => !Array.isArray(row) || row.length !== width)) return undefined
  const headOf = (axis: Axis, which: number) =>
    axis.at.map((value, index): GridCell => {
      const label = `${axis.title}, ${index + 1} of ${axis.at.length}`
      return { path: [...path, 'axes', which, axis.field, index], value: String(value), label, isText: axis.isText }
    })
  const rows = cells.map((row, index) => {
    const values = across ? (row as readonly unknown[]) : [row]
    return {
      head: headOf(down, 0)[index] as GridCell,
      cells: values.map((value, column): GridCell => {
        const of = `${down.title} ${down.at[index]}${across ? `, ${across.title} ${across.at[column]}` : ''}`
        const inner = across ? [index, column] : [index]
        return {
          path: [...path, 'cells', ...inner],
          value: value === null ? '' : String(value),
          label: of,
          isText: false,
        }
      }),
    }
  })
  return { path, down: down.title, across: across?.title ?? '', head: across ? headOf(across, 1) : [], rows }
}

interface Axis {
  readonly title: string
  readonly field: 'at' | 'choices'
  readonly at: readonly unknown[]
  readonly isText: boolean
}

function axisOf(axis: unknown): Axis | undefined {
  if (!isNamed(axis)) return undefined
  const field = Array.isArray(axis.at) ? 'at' : 'choices'
  const at = axis[field]
  const name = typeof axis.label === 'string' ? axis.label : String(axis.name)
  const unit = typeof axis.unit === 'string' && axis.unit !== 'none' ? ` (${axis.unit})` : ''
  return Array.isArray(at) ? { title: `${name}${unit}`, field, at, isText: field === 'choices' } : undefined
}

/** What was typed into a cell; undefined where it is no value of one. */
export function cellValue({ isText }: GridCell, typed: string): string | number | undefined {
  const text = typed.trim()
  if (isText) return text === '' ? undefined : text
  if (text === NOT_GIVEN) return text
  return numberTyped(text)
}

export interface Pasted {
  readonly edits: readonly Edit[]
  /** What could not be taken, in words; empty where all was. */
  readonly left: string
}

/** A block from a spreadsheet, laid in from one cell on, to the right and down. */
export function pastedInto(grid: Grid, from: GridCell, text: string): Pasted {
  const lines = text.replace(/\r\n?/g, '\n').replace(/\n$/, '').split('\n')
  const whole = [grid.head, ...grid.rows.map(({ cells }) => cells)]
  const line = whole.findIndex((cells) => cells.some(({ path }) => isSamePath(path, from.path)))
  const column = (whole[line] ?? []).findIndex(({ path }) => isSamePath(path, from.path))
  const isHead = column < 0
  const edits: Edit[] = []
  const strange: string[] = []
  let outside = 0
  for (const [down, row] of lines.entries()) {
    for (const [right, typed] of row.split('\t').entries()) {
      const at = isHead ? headCell(grid, from, down, right) : whole[line + down]?.[column + right]
      if (!at) outside++
      else {
        const value = cellValue(at, typed)
        if (value === undefined) strange.push(typed.trim() || 'an empty cell')
        else edits.push({ type: 'set', path: at.path, value })
      }
    }
  }
  const left = [
    outside > 0
      ? `${outside} ${outside === 1 ? 'cell lies' : 'cells lie'} outside the table: add rows or columns first`
      : '',
    strange.length > 0 ? `no number: ${[...new Set(strange)].slice(0, 5).join(', ')}` : '',
  ].filter((one) => one !== '')
  return { edits: left.length > 0 ? [] : edits, left: left.join('; ') }
}

/** From the head of a row on: further rows downwards, and its cells to the right. */
function headCell(grid: Grid, from: GridCell, down: number, right: number): GridCell | undefined {
  const line = grid.rows.findIndex(({ head }) => isSamePath(head.path, from.path))
  const row = grid.rows[line + down]
  return right === 0 ? row?.head : row?.cells[right - 1]
}

const isSamePath = (one: Path, other: Path) => one.join(' ') === other.join(' ')

/** One more row or column behind the last; its cells are as yet not given. */
export function widened(grid: Grid, way: 'row' | 'column'): readonly Edit[] {
  const [heads, which] = way === 'row' ? [grid.rows.map(({ head }) => head), 0] : [grid.head, 1]
  const last = heads.at(-1)
  if (!last) return []
  const [one, other] = heads.slice(-2).map(({ value }) => Number(value))
  const step = one !== undefined && other !== undefined ? other - one : 1
  const value = last.isText ? `${last.value}2` : Number(((other ?? one ?? 0) + step).toFixed(6))
  const axis: Edit = { type: 'add', path: last.path, value }
  const lastRow = grid.rows.length - 1
  if (which === 0) {
    const cells = grid.head.length > 0 ? grid.head.map(() => NOT_GIVEN) : NOT_GIVEN
    return [axis, { type: 'add', path: [...grid.path, 'cells', lastRow], value: cells }]
  }
  const ends = grid.rows.map(({ cells }) => cells.at(-1)?.path ?? [])
  return [axis, ...ends.map((path): Edit => ({ type: 'add', path, value: NOT_GIVEN }))]
}

/** Without its last row or column; a table has at least two of each. */
export function narrowed(grid: Grid, way: 'row' | 'column'): readonly Edit[] {
  const heads = way === 'row' ? grid.rows.map(({ head }) => head) : grid.head
  const last = heads.at(-1)
  if (!last || heads.length <= 2) return []
  const cells =
    way === 'row'
      ? [[...grid.path, 'cells', grid.rows.length - 1]]
      : grid.rows.map((row) => row.cells.at(-1)?.path ?? [])
  return [last.path, ...cells].map((path): Edit => ({ type: 'remove', path }))
}
