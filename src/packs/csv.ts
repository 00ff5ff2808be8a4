/** A load sheet as CSV -> the same shape as one in YAML, with a place for every value. */

import type { Pack, Situation } from '../kernel/pack/checklist.ts'
import type { Problem } from '../kernel/problem.ts'
import { didYouMean } from './nearest.ts'
import type { Path, Source } from './source.ts'

interface Cell {
  readonly text: string
  readonly column: number
}

const COLUMNS = ['name', 'value', 'unit', 'source'] as const
/** Names of rows that are neither a figure, a station nor a situation. */
const HEAD_ROWS = ['status', 'label'] as const

/**
 * Columns name, value, and if need be unit and source, separated by comma, semicolon or tab; a first row of these names
 * may put them in another order. A row names a figure, a station, a situation, `status` or `label`.
 */
export function csvSource(file: string, text: string, pack: Pack): Source {
  const places = new Map<string, { line: number; column: number }>()
  const problems: Problem[] = []
  const value: Record<string, Record<string, unknown> | string> = { values: {}, loads: {}, situation: {}, stated: {} }
  const stations = pack.figures.stations.map(({ name }) => name)
  const situations = pack.situations.map(({ name }: Situation) => name)
  const figures = Object.keys(pack.figures.declarations)
  let order: readonly string[] = COLUMNS

  for (const [index, line] of text.split(/\r?\n/).entries()) {
    if (line.trim() === '' || line.startsWith('#')) continue
    const cells = cellsOf(line)
    if (cells.some(({ text: cell }) => cell.toLowerCase() === 'name')) {
      order = cells.map(({ text: cell }) => cell.toLowerCase())
      continue
    }
    const cell = (column: string): Cell => cells[order.indexOf(column)] ?? { text: '', column: 1 }
    const name = cell('name')
    const known = [...HEAD_ROWS, ...stations, ...figures, ...situations]
    const given = withUnit(cell('value').text, cell('unit').text)
    const path = pathOf(name.text, cell('source').text, { stations, situations, figures })
    if (!path) {
      const message = `"${name.text}" is no figure, station or situation${didYouMean(name.text, known)}`
      const place = { file, line: index + 1, column: name.column }
      problems.push({ code: 'input.unknown', message, place, severity: 'error' })
      continue
    }
    put(value, path, path[0] === 'situation' || path.length === 1 ? String(given) : given)
    places.set(path.join('.'), { line: index + 1, column: cell('value').column })
  }
  const place = (path: Path) => ({ file, ...(places.get(path.join('.')) ?? { line: 1, column: 1 }) })
  return { file, value, problems, place, placeInText: place, placeOfKey: (path, key) => place([...path, key]) }
}

function pathOf(
  name: string,
  source: string,
  known: { stations: readonly string[]; situations: readonly string[]; figures: readonly string[] },
): string[] | undefined {
  if ((HEAD_ROWS as readonly string[]).includes(name)) return [name]
  if (known.stations.includes(name)) return ['loads', name]
  if (known.figures.includes(name)) return source ? ['stated', source, name] : ['values', name]
  return known.situations.includes(name) ? ['situation', name] : undefined
}

function put(value: Record<string, unknown>, path: readonly string[], given: unknown): void {
  let here = value
  for (const segment of path.slice(0, -1)) {
    here[segment] ??= {}
    here = here[segment] as Record<string, unknown>
  }
  here[path.at(-1) ?? ''] = given
}

/** A bare number as one, unless its digits would be lost ("0421"); anything else stays text. */
function withUnit(text: string, unit: string): string | number {
  if (unit !== '') return `${text} ${unit}`
  return /^-?(0|[1-9]\d*)(\.\d+)?$/.test(text) ? Number(text) : text
}

/** Cells of one line; a quoted one may hold separators, and "" is a quotation mark. */
function cellsOf(line: string): Cell[] {
  const separator = [';', '\t', ','].find((one) => line.includes(one)) ?? ','
  const cells: Cell[] = []
  let at = 0
  while (at <= line.length) {
    const start = at
    let text = ''
    if (line[at] === '"') {
      for (at++; at < line.length; at++) {
        if (line[at] !== '"') text += line[at]
        else if (line[at + 1] === '"') text += line[at++]
        else break
      }
      at++
    }
    const end = line.indexOf(separator, at)
    text += line.slice(at, end < 0 ? line.length : end)
    cells.push({ text: text.trim(), column: start + 1 })
    at = (end < 0 ? line.length : end) + 1
  }
  return cells
}
