/** Tables of numbers in pasted text, which are no items: rows of one width, numbers below a head. */

import { MOST_CHARACTERS } from '../../kernel/bounds.ts'
import { withoutUnit } from './tableCells.ts'
import { numberOf, tidyNumber } from './tableNumbers.ts'

export interface FoundTable {
  /** Of the text, from 1, its title with it. */
  readonly line: number
  readonly last: number
  readonly text: string
}

/** Longer lines are none of a checklist, nor of a table that anybody reads. */
const LONGEST_ROW = 400
const SIGNS = ['\t', ';', ','] as const

export function tablesIn(source: string): FoundTable[] {
  const lines = source.slice(0, MOST_CHARACTERS).split(/\r\n|\n|\r/)
  const found: FoundTable[] = []
  for (let at = 0; at < lines.length; at++) {
    const last = lastRow(lines, at)
    if (last === undefined) continue
    const first = isTitle(lines, at, last) ? at - 1 : at
    found.push({ line: first + 1, last: last + 1, text: lines.slice(first, last + 1).join('\n') })
    at = last
  }
  return found
}

/** Where the table ends whose head stands here; undefined where none does. */
function lastRow(lines: readonly string[], at: number): number | undefined {
  const head = lines[at] ?? ''
  const sign = SIGNS.find((one) => head.includes(one))
  if (!sign || head.length > LONGEST_ROW || /__|\.\./.test(head)) return undefined
  const width = cellsOf(head, sign).length
  if (width < 2 || (sign === ',' && !/\p{L}/u.test(head))) return undefined
  let last = at
  while (isRow(lines[last + 1] ?? '', sign, width)) last++
  const isTable = last - at >= 2 || (last - at === 1 && width >= 4)
  return isTable ? last : undefined
}

/** Cells up to the last one with something in it. */
function cellsOf(line: string, sign: string): string[] {
  const cells = line.split(sign).map((cell) => cell.trim())
  while (cells.at(-1) === '') cells.pop()
  return cells
}

/** Numbers, or nothing, in each cell; the first of three and more may have words. */
function isRow(line: string, sign: string, width: number): boolean {
  if (line.length > LONGEST_ROW || !line.includes(sign)) return false
  const cells = cellsOf(line, sign)
  if (cells.length < 2 || cells.length > width) return false
  const numbers = width > 2 ? cells.slice(1) : cells
  return numbers.some((cell) => cell !== '') && numbers.every((cell) => cell === '' || isNumber(cell))
}

function isNumber(cell: string): boolean {
  const text = tidyNumber(withoutUnit(cell).text)
  return (['.', ','] as const).some((decimal) => numberOf(text, { decimal, unclear: false }) !== undefined)
}

/** A line right above the head, apart from all else, with nothing right below the table. */
function isTitle(lines: readonly string[], at: number, last: number): boolean {
  const above = lines[at - 1]?.trim() ?? ''
  const isApart = (lines[at - 2] ?? '').trim() === '' && (lines[last + 1] ?? '').trim() === ''
  return isApart && above !== '' && above.length < 80 && !/[\t;]|\.\.|__/.test(above)
}
