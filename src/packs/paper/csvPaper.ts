/** A checklist that was saved as a table: separated by commas or semicolons, with or without heads. */

import { quoted } from '../../kernel/quoted.ts'
import { rowsOf } from '../csvRows.ts'
import { dividedLine, withBlanks } from './cells.ts'
import type { KnownLine } from './lineKinds.ts'
import { seatIn } from './looseLines.ts'
import type { SourceLine } from './paperText.ts'

interface Read {
  readonly lines: readonly KnownLine[]
  readonly doubts: readonly { readonly line: number; readonly text: string }[]
}

type Column = 'list' | 'challenge' | 'answer' | 'number' | 'other'

const HEADS: readonly (readonly [Column, readonly string[]])[] = [
  ['list', ['list', 'phase', 'section', 'checklist', 'procedure', 'part', 'group']],
  ['challenge', ['challenge', 'item', 'check', 'system', 'action item', 'task', 'what']],
  ['answer', ['response', 'answer', 'action', 'condition', 'state', 'setting', 'required', 'position', 'call']],
  ['number', ['no', 'no.', '#', 'nr', 'number', 'step', 'id', 'seq']],
]

/** Titles may stand above the heads. */
const HEADS_WITHIN = 6
/** Share of the lines that must be rows of a table with the same separator. */
const MOST_OF = 0.7

/** The rows as lines of lists; undefined where the text is no such table. */
export function csvLines(lines: readonly SourceLine[]): Read | undefined {
  const filled = lines.filter(({ text }) => text !== '')
  const sign = [';', ','].find((one) => {
    const rows = filled.filter(({ text }) => text.includes(one) && !text.includes('\t') && isOnlySeparated(text))
    return rows.length > 2 && rows.length >= MOST_OF * filled.length
  })
  if (sign === undefined) return undefined
  const rows = filled.map(({ line, text, indent }) => ({
    line,
    text,
    indent,
    cells: (rowsOf(text)[0]?.cells ?? []).map((cell) => cell.text),
  }))
  const widest = Math.max(...rows.map(({ cells }) => cells.length))
  if (widest > 12) return undefined
  const doubts: { line: number; text: string }[] = []
  const headRow = rows.slice(0, HEADS_WITHIN).findIndex(({ cells }) => columnsFrom(cells))
  const heads = columnsFrom(rows[headRow]?.cells ?? [])
  for (const { line, text } of rows.slice(0, Math.max(0, headRow)))
    doubts.push({ line, text: `${quoted(text)} stands above the table and is left out` })
  const columns = heads ?? byPlace(rows.map(({ cells }) => cells))
  const [first] = rows
  if (!heads && first)
    doubts.push({ line: first.line, text: `no heads name the columns: they are taken for ${columns.join(', ')}` })
  const known: KnownLine[] = []
  let list = ''
  for (const { cells, ...line } of rows.slice(headRow + 1)) {
    const at = (column: Column) => cells[columns.indexOf(column)]?.trim() ?? ''
    const name = at('list')
    const blank: KnownLine = { ...line, kind: { is: 'blank' } }
    if (name !== '' && name !== list) known.push(blank, { ...line, kind: { is: 'heading', text: name, sure: true } })
    if (name !== '') list = name
    const filledCells = cells.filter((cell) => cell.trim() !== '')
    if (filledCells.length === 1 && at('challenge') === filledCells[0]?.trim() && !columns.includes('list')) {
      known.push(blank, { ...line, kind: { is: 'heading', text: at('challenge'), sure: false } })
      continue
    }
    const others = cells.flatMap((cell, index) =>
      (columns[index] ?? 'other') === 'other' && cell.trim() !== '' ? [cell.trim()] : [],
    )
    if (at('challenge') === '' && at('answer') === '') {
      if (filledCells.length > 0 && filledCells[0] !== name)
        doubts.push({ line: line.line, text: `${quoted(line.text)} has no item and is left out` })
      continue
    }
    const seats = at('answer') === '' ? [] : others.filter((cell) => seatIn(cell) !== undefined)
    known.push({
      ...line,
      kind: {
        is: 'item',
        cells: [at('challenge'), withBlanks(at('answer')), ...seats],
        by: 'bar',
        column: 0,
        mark: '',
        isListed: true,
      },
    })
    for (const other of others.filter((cell) => !seats.includes(cell)))
      doubts.push({ line: line.line, text: `${quoted(other)} stands in a column of its own and is left out` })
  }
  return { lines: known, doubts }
}

/** No other divider stands in the line that would say more. */
function isOnlySeparated(text: string): boolean {
  const by = dividedLine(text)?.by
  return by === undefined || by === 'capitals' || by === 'blank' || by === 'dash' || by === 'colon'
}

function columnsFrom(cells: readonly string[]): Column[] | undefined {
  const columns = cells.map((cell): Column => {
    const low = cell.trim().toLowerCase()
    return HEADS.find(([, names]) => names.includes(low))?.[0] ?? 'other'
  })
  // Of several that could be the answer one is, "response" before "condition"; the others are told to be left out.
  const isNamed = (cell: string) => ['response', 'answer'].includes(cell.trim().toLowerCase())
  const answers = columns.flatMap((column, index) => (column === 'answer' ? [index] : []))
  const answer = answers.find((index) => isNamed(cells[index] ?? '')) ?? answers[0]
  for (const index of answers) if (index !== answer) columns[index] = 'other'
  return columns.includes('challenge') && columns.includes('answer') ? columns : undefined
}

/** By what stands in them: numbers first, then the list where its names repeat, what is asked, the answer. */
function byPlace(rows: readonly (readonly string[])[]): Column[] {
  const width = Math.max(...rows.map((cells) => cells.length))
  const columns: Column[] = []
  const cellsAt = (index: number) => rows.map((cells) => cells[index]?.trim() ?? '')
  let index = 0
  if (width > 2 && cellsAt(0).filter((cell) => /^\d{1,3}\.?$/.test(cell)).length > rows.length / 2) {
    columns.push('number')
    index++
  }
  if (width - index > 2 && new Set(cellsAt(index)).size <= rows.length / 2) columns.push('list')
  columns.push('challenge', 'answer')
  while (columns.length < width) columns.push('other')
  return columns
}
