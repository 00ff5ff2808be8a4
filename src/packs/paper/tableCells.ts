/** The cells of a pasted table, row by row, and the units that are written with them. */

import { MOST_CHARACTERS, MOST_ENTRIES } from '../../kernel/bounds.ts'
import { quoted } from '../../kernel/quoted.ts'
import { isUnit, type Unit } from '../../kernel/units.ts'
import { rowsOf } from '../csvRows.ts'

/** `line` is that of the text, from 1. */
export interface TableQuestion {
  readonly line: number
  readonly text: string
}

export interface Row {
  readonly line: number
  readonly cells: readonly string[]
}

export const clean = (text: string) =>
  text
    .replace(/[\p{C}\p{Zl}\p{Zp}]/gu, ' ')
    .trim()
    .slice(0, 200)

/** Rows with something in them; a first one of a single cell is the title. */
export function rowsIn(text: string, questions: TableQuestion[]) {
  if (text.length > MOST_CHARACTERS) {
    questions.push({ line: 1, text: 'the table is longer than a pack may be; only its beginning was read' })
  }
  const lines = text.slice(0, MOST_CHARACTERS).split(/\r\n|\n|\r/)
  const separator = ['\t', ';', ','].find((one) => lines.some((line) => line.includes(one)))
  const all = lines.flatMap((line, index): Row[] => {
    const cells = cellsOf(line, separator)
    return cells.some((cell) => cell !== '') ? [{ line: index + 1, cells }] : []
  })
  const rows = all.slice(0, MOST_ENTRIES)
  const next = all[rows.length]
  if (next) questions.push({ line: next.line, text: 'more rows than a table may have; from here on they are left out' })
  const filled = (row: Row | undefined) => row?.cells.filter((cell) => cell !== '') ?? []
  const [first] = rows
  const isTitle =
    first !== undefined && filled(first).length === 1 && filled(rows[1]).length > 1 && first.cells[0] !== ''
  return {
    title: isTitle ? { line: first.line, text: first.cells[0] ?? '' } : undefined,
    rows: isTitle ? rows.slice(1) : rows,
  }
}

/** Cells of a line; the separators that do not part the table stand in its numbers. */
function cellsOf(line: string, separator: string | undefined): readonly string[] {
  if (separator === undefined) return [clean(line)]
  if (!line.includes('"'))
    return line
      .split(separator)
      .map((cell) => clean(cell))
      .slice(0, MOST_ENTRIES + 1)
  const [row] = rowsOf(separator === ',' ? line : line.replaceAll(separator, ';'))
  return (row?.cells ?? []).map((cell) => clean(cell.text)).slice(0, MOST_ENTRIES + 1)
}

/** Every row as wide as the first; what lacks is empty, what is too much is told. */
export function squared(
  head: Row,
  body: readonly Row[],
  questions: TableQuestion[],
): { readonly rows: readonly Row[] } {
  let width = head.cells.length
  while (width > 1 && head.cells[width - 1] === '') width--
  const rows = body.map(({ line, cells }) => {
    const extra = cells.slice(width).find((cell) => cell !== '')
    if (extra !== undefined)
      questions.push({ line, text: `${quoted(extra)} stands in a column that has no head; it is left out` })
    return { line, cells: Array.from({ length: width }, (_, index) => cells[index] ?? '') }
  })
  return { rows }
}

const UNITS_SHOWN: Readonly<Record<string, Unit>> = {
  kg: 'kg',
  lb: 'lb',
  lbs: 'lb',
  kt: 'kt',
  kts: 'kt',
  knots: 'kt',
  ft: 'ft',
  feet: 'ft',
  m: 'm',
  '°c': 'C',
  c: 'C',
  '°f': 'F',
  f: 'F',
  '%mac': 'percentMac',
  '% mac': 'percentMac',
  '%': 'percent',
  hpa: 'hPa',
  inhg: 'inHg',
  deg: 'deg',
  '°': 'deg',
  units: 'trim',
  in: 'in',
  gal: 'usgal',
  l: 'l',
}

export interface WithUnit {
  readonly text: string
  readonly unit: Unit | undefined
}

/** "Weight (kg)", "Weight [kg]", "Weight, kg", "10 °C", "25%". */
export function withoutUnit(text: string): WithUnit {
  const low = text.toLowerCase()
  const close = low.endsWith(')') || low.endsWith(']')
  const open = close
    ? Math.max(low.lastIndexOf('('), low.lastIndexOf('['))
    : Math.max(low.lastIndexOf(', '), low.lastIndexOf(' '))
  const glued = /^[+-]?\d[\d.,]{0,12}(°?[a-z%]{1,4})$/.exec(low)?.[1]
  const written = glued ?? (open < 0 ? '' : low.slice(open + 1, close ? -1 : undefined).trim())
  const unit = Object.hasOwn(UNITS_SHOWN, written) ? UNITS_SHOWN[written] : isUnit(written) ? written : undefined
  if (unit === undefined) return { text, unit }
  const rest = glued === undefined ? text.slice(0, open) : text.slice(0, text.length - glued.length)
  return { text: rest.replace(/,$/, '').trim(), unit }
}
