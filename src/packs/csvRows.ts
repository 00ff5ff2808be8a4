/** CSV text -> rows of cells, each with its place. Cells are separated by comma, semicolon or tab; `#` begins a remark. */

export interface Cell {
  readonly text: string
  /** From 1. */
  readonly column: number
  /** It begins with a quotation mark that is never closed. */
  readonly isOpen?: true
}

export interface Row {
  /** From 1. */
  readonly line: number
  readonly cells: readonly Cell[]
}

export function rowsOf(text: string): Row[] {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/)
  return lines.flatMap((line, index) =>
    line.trim() === '' || line.startsWith('#') ? [] : [{ line: index + 1, cells: cellsOf(line) }],
  )
}

/** Cells of one line; a quoted one may hold separators, and "" is a quotation mark. */
function cellsOf(line: string): Cell[] {
  const separator = [';', '\t', ','].find((one) => line.includes(one)) ?? ','
  const cells: Cell[] = []
  let at = 0
  while (at <= line.length) {
    const start = at
    const { text, end, isOpen } = line[at] === '"' ? quotedCell(line, at + 1) : { text: '', end: at, isOpen: false }
    const next = line.indexOf(separator, end)
    const rest = line.slice(end, next < 0 ? line.length : next)
    cells.push({ text: (text + rest).trim(), column: start + 1, ...(isOpen && { isOpen }) })
    at = (next < 0 ? line.length : next) + 1
  }
  return cells
}

function quotedCell(
  line: string,
  from: number,
): { readonly text: string; readonly end: number; readonly isOpen: boolean } {
  let text = ''
  for (let at = from; at < line.length; at++) {
    if (line[at] !== '"') text += line[at]
    else if (line[at + 1] === '"') text += line[at++]
    else return { text, end: at + 1, isOpen: false }
  }
  return { text, end: line.length, isOpen: true }
}
