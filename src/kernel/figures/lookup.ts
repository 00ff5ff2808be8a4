/** Looking up tables of one to four axes: linear between the entries of each axis or read at one of them, never outside, never where nothing is given. */

import { showUnit } from '../units.ts'
import { failed, type Outcome, type Work } from './calculator.ts'
import { formatMeasured, formatNumber } from './format.ts'
import type { TableCell } from './model.ts'
import type { Axis, Table } from './pack.ts'
import { standsAt } from './work.ts'

/** A value this close to an axis's end, relative to it, stands at the end: it came there by a conversion of units. */
const END_SLACK = 1e-9

/** Where a value stands on an axis: between two entries, `share` of the way to the second. */
export interface Bracket {
  readonly low: number
  readonly high: number
  readonly share: number
}

export type Looked =
  | { readonly value: number; readonly cells: readonly TableCell[] }
  | { readonly outside: string; readonly code: 'table.outside' | 'table.noChoice' | 'table.notGiven' }

/** Finds the entries around a value; a sentence where there are none. */
export function bracket(axis: Axis, value: number | string): Bracket | string {
  if ('choices' in axis) {
    const index = axis.choices.indexOf(String(value))
    if (index < 0) return `${axis.label} "${value}" is not on its axis ${axis.name}: ${axis.choices.join(', ')}`
    return { low: index, high: index, share: 0 }
  }
  const first = axis.at[0] ?? Number.NaN
  const last = axis.at.at(-1) ?? Number.NaN
  const slack = END_SLACK * Math.max(Math.abs(first), Math.abs(last), 1)
  const number = Number(value)
  if (!(number >= first - slack && number <= last + slack)) {
    const ends = `${formatNumber(first)} to ${formatMeasured(last, axis.unit)}`
    return `${axis.label} ${formatMeasured(number, axis.unit)} is outside its axis ${axis.name}: ${ends}`
  }
  const within = Math.min(Math.max(number, first), last)
  let high = axis.at.findIndex((entry) => entry >= within)
  if (axis.at[high] === within) return { low: high, high, share: 0 }
  high = Math.max(high, 1)
  const [below = 0, above = 0] = [axis.at[high - 1], axis.at[high]]
  if (axis.read) {
    const isHigher = axis.read === 'higher' || (axis.read === 'nearest' && within - below >= above - within)
    const at = isHigher ? high : high - 1
    return { low: at, high: at, share: 0 }
  }
  return { low: high - 1, high, share: (within - below) / (above - below) }
}

/** One value for each axis, in the axis's unit, in the table's order. */
export function look(table: Table, values: readonly (number | string)[]): Looked {
  const brackets: Bracket[] = []
  for (const [index, axis] of table.axes.entries()) {
    const found = bracket(axis, values[index] ?? '')
    if (typeof found === 'string') {
      return { outside: `table ${table.label}: ${found}`, code: 'choices' in axis ? 'table.noChoice' : 'table.outside' }
    }
    brackets.push(found)
  }
  return blend(table, brackets)
}

/** The weighted sum over the corners of the cell that the brackets mark out: each bit of `corner` takes low or high. */
function blend(table: Table, brackets: readonly Bracket[]): Looked {
  let value = 0
  const cells: TableCell[] = []
  for (let corner = 0; corner < 1 << brackets.length; corner++) {
    let weight = 1
    const indexes = brackets.map(({ low, high, share }, axis) => {
      const isHigh = (corner & (1 << (brackets.length - 1 - axis))) !== 0
      weight *= isHigh ? share : 1 - share
      return isHigh ? high : low
    })
    if (weight === 0) continue
    const cell = cellAt(table, indexes)
    // What is not given is not made up from what stands around it.
    if (Number.isNaN(cell.value))
      return { outside: `table ${table.label}: nothing is given at ${placeOf(table, cell)}`, code: 'table.notGiven' }
    value += weight * cell.value
    cells.push(cell)
  }
  return { value, cells }
}

const placeOf = ({ axes }: Table, { at }: TableCell): string =>
  axes
    .map((axis) => `${axis.label} ${formatMeasured(at[axis.name] ?? '', 'unit' in axis ? axis.unit : undefined)}`)
    .join(', ')

export function cellAt(table: Table, indexes: readonly number[]): TableCell {
  let place = 0
  const at: Record<string, number | string> = {}
  for (const [number, axis] of table.axes.entries()) {
    const entries = 'choices' in axis ? axis.choices : axis.at
    const index = indexes[number] ?? 0
    place = place * entries.length + index
    at[axis.name] = entries[index] ?? ''
  }
  return { table: table.name, at, value: table.cells[place] ?? Number.NaN }
}

/** "takeoff weight 5,230 lb, read at 5,500 lb". */
function standing(axis: Axis, value: number | string, cells: readonly TableCell[]): string {
  const unit = 'unit' in axis ? axis.unit : undefined
  const entry = cells[0]?.at[axis.name]
  const at = 'read' in axis && entry !== undefined && entry !== value ? `, read at ${formatMeasured(entry, unit)}` : ''
  return `${axis.label} ${formatMeasured(value, unit)}${at}`
}

/** The calculator: the figures named in `at`, one for each axis, and the cells used as its reason. */
export function lookUp(work: Work): Outcome {
  const table = work.basis.tables[work.derivation.table ?? '']
  if (!table) throw new Error(`${work.figure.name} looks up a table that the pack does not have`)
  const values = table.axes.map((axis) => standsAt(work, axis.name, 'unit' in axis ? axis.unit : undefined))
  const looked = look(table, values)
  if ('outside' in looked) return failed(looked.code, `${work.figure.label}: ${looked.outside}`)
  const stands = table.axes.map((axis, index) => standing(axis, values[index] ?? '', looked.cells))
  const between = looked.cells.length > 1 ? `, between ${looked.cells.length} cells` : ''
  const text = `table ${table.label} at ${stands.join(', ')}${between}: ${formatNumber(looked.value)} ${showUnit(table.unit)}`
  return { value: looked.value, unit: table.unit, why: [{ text: text.trim(), uses: [], cells: looked.cells }] }
}
