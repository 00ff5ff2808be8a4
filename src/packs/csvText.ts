/**
 * Rows as CSV (RFC 4180) that a spreadsheet takes as it is: with a mark that says UTF-8, every text in quotes, and no text
 * that a spreadsheet would take for a formula.
 */

export type Cell = string | number

/** Signs with which a formula begins, also in their wide forms, and what a spreadsheet drops before it looks for them. */
const FORMULA = /^\s*[=+\-@\uff1d\uff0b\uff0d\uff20]|^[\t\r\n]/u
const BYTE_ORDER_MARK = '\uFEFF'

export function csvOf(rows: readonly (readonly Cell[])[]): string {
  return BYTE_ORDER_MARK + rows.map((row) => `${row.map(written).join(',')}\r\n`).join('')
}

function written(cell: Cell): string {
  if (typeof cell === 'number') return String(cell)
  const safe = FORMULA.test(cell) ? `'${cell}` : cell
  return `"${safe.replace(/\r\n?/g, '\n').replaceAll('"', '""')}"`
}
