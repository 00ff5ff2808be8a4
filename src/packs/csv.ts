/** A load sheet as CSV -> the same shape as one in YAML, with a place for every value. */

import { MOST_CHARACTERS, MOST_ENTRIES } from '../kernel/bounds.ts'
import { STATUSES } from '../kernel/figures/model.ts'
import { ownOf } from '../kernel/own.ts'
import type { Pack } from '../kernel/pack/checklist.ts'
import type { Place, Problem } from '../kernel/problem.ts'
import { quoted } from '../kernel/quoted.ts'
import { type Cell, type Row, rowsOf } from './csvRows.ts'
import { didYouMean } from './nearest.ts'
import type { Path, Source } from './source.ts'
import { fewOf } from './telling.ts'

const COLUMNS = ['name', 'value', 'unit', 'source'] as const
type Column = (typeof COLUMNS)[number]
/** Names of rows that are neither a figure, a station nor a situation. */
const HEAD_ROWS = ['status', 'label'] as const

/** A value of the sheet: where it belongs, and where it stands. */
interface Entry {
  readonly path: Path
  readonly value: string | number
  readonly place: Place
}

/**
 * Columns name, value, and if need be unit and source; a first row of these names may put them in another order. A row
 * names a figure, a station, a situation, `status` or `label`.
 */
export function csvSource(file: string, text: string, pack: Pack): Source {
  const { entries, problems, isWhole } = readSheet(file, text, pack)
  const place = (path: Path) => entries.get(keyOf(path))?.place ?? { file, line: 1, column: 1 }
  return {
    file,
    value: isWhole ? dataOf([...entries.values()]) : undefined,
    problems,
    place,
    placeInText: place,
    placeOfKey: (path, key) => place([...path, key]),
  }
}

const STATUS: Entry = { path: ['status'], value: STATUSES[0], place: { file: '', line: 1, column: 1 } }

const keyOf = (path: Path) => path.join('\n')

interface Sheet {
  /** By path, its names joined. */
  readonly entries: ReadonlyMap<string, Entry>
  readonly problems: readonly Problem[]
  /** False where it is no sheet at all: what it lacks is not told then. */
  readonly isWhole: boolean
}

function readSheet(file: string, text: string, pack: Pack): Sheet {
  const problem = (code: string, line: number, column: number, message: string): Problem => {
    return { code, message, place: { file, line, column }, severity: 'error' }
  }
  const rows = text.length > MOST_CHARACTERS ? [] : rowsOf(text)
  const [first] = rows
  const heads = first?.cells.map((cell) => cell.text.toLowerCase()) ?? []
  const hasHeads = heads.includes('name')
  const whole = notWhole(text, rows, hasHeads ? heads : COLUMNS)
  if (whole !== undefined) {
    return { entries: new Map(), problems: [problem('csv.whole', first?.line ?? 1, 1, whole)], isWhole: false }
  }
  const strange = hasHeads ? strangeHead(first?.cells ?? []) : undefined
  if (strange) {
    const { code, wrong, cell } = strange
    return { entries: new Map(), problems: [problem(code, first?.line ?? 1, cell.column, wrong)], isWhole: false }
  }
  const entries = new Map<string, Entry>()
  const problems: Problem[] = []
  const strangers: Problem[] = []
  for (const row of hasHeads ? rows.slice(1) : rows) {
    const read = readRow(pack, row, hasHeads ? heads : COLUMNS)
    if ('wrong' in read) {
      const { code, wrong, cell } = read
      const told = problem(code, row.line, cell.column, wrong)
      if (code === 'input.unknown') strangers.push(told)
      else problems.push(told)
      // Where its row is wrong the status is not missing as well.
      if (row.cells.some(({ text: each }) => each === 'status')) entries.set('status', STATUS)
      continue
    }
    const { path, value, cell } = read
    const before = entries.get(keyOf(path))
    const place = { file, line: row.line, column: cell.column }
    if (!before) entries.set(keyOf(path), { path, value, place })
    else {
      const message = `${path.at(-1)} stands twice; line ${before.place.line} has it already`
      problems.push({ code: 'id.duplicate', message, place, severity: 'error' })
    }
  }
  return { entries, problems: [...problems, ...fewOf(strangers, moreRows)], isWhole: true }
}

/** Why it cannot be read as a sheet, if so. */
function notWhole(text: string, rows: readonly Row[], columns: readonly string[]): string | undefined {
  if (text.length > MOST_CHARACTERS) return `${text.length} characters; at most ${MOST_CHARACTERS} can be read`
  if (rows.length > MOST_ENTRIES) return `${rows.length} rows; at most ${MOST_ENTRIES} can be read`
  if (rows.length === 0) return 'the sheet is empty; a row has a name and a value: blockFuel,6700'
  return columns.includes('value') ? undefined : `no column is called "value"; there should be ${COLUMNS.join(', ')}`
}

interface WrongCell {
  readonly code: string
  readonly wrong: string
  readonly cell: Cell
}

/** A heading that is no column's, or stands twice: what is below it would be lost, a unit perhaps. */
function strangeHead(cells: readonly Cell[]): WrongCell | undefined {
  const seen = new Set<string>()
  for (const cell of cells) {
    const name = cell.text.toLowerCase()
    if (name === '') continue
    if (seen.has(name)) return { code: 'csv.columns', cell, wrong: `${quoted(cell.text)} heads two columns` }
    seen.add(name)
    if ((COLUMNS as readonly string[]).includes(name)) continue
    const wrong = `${quoted(cell.text)} is no column${didYouMean(name, COLUMNS)}`
    return { code: 'csv.columns', cell, wrong }
  }
  return undefined
}

type ReadRow = { readonly path: Path; readonly value: string | number; readonly cell: Cell } | WrongCell

function readRow(pack: Pack, { cells }: Row, order: readonly string[]): ReadRow {
  const at = (column: Column): Cell => cells[order.indexOf(column)] ?? { text: '', column: 1 }
  const [name, value, unit, source] = [at('name'), at('value'), at('unit'), at('source')]
  const open = cells.find(({ isOpen }) => isOpen)
  if (open) return { code: 'csv.quote', cell: open, wrong: 'the text that begins here is not closed by "' }
  const extra = cells.slice(order.length).find(({ text }) => text !== '')
  if (extra) return { code: 'csv.columns', cell: extra, wrong: `${quoted(extra.text)} is in no column; ${IN_QUOTES}` }
  if (name.text === '') return { code: 'input.empty', cell: name, wrong: 'the row has no name' }
  const kind = kindOf(pack, name.text)
  if (!kind) {
    const wrong = `${quoted(name.text)} is no figure, station or situation${didYouMean(name.text, namesIn(pack))}`
    return { code: 'input.unknown', cell: name, wrong }
  }
  const isText = kind === 'head' || kind === 'situation'
  if (value.text === '') return { code: 'input.empty', cell: name, wrong: `${name.text} has no value` }
  if (/^[\d.,]+$/.test(unit.text)) {
    return { code: 'unit.unknown', cell: unit, wrong: `${quoted(unit.text)} is no unit; ${IN_QUOTES}` }
  }
  if (isText && unit.text !== '') return { code: 'unit.misfit', cell: unit, wrong: `${name.text} has no unit` }
  const wrong = source.text === '' ? undefined : wrongSource(pack, name.text, source.text)
  if (wrong !== undefined) return { code: 'source.unknown', cell: source, wrong }
  const path = pathOf(kind, name.text, source.text)
  return { path, value: isText ? value.text : withUnit(value.text, unit.text), cell: value }
}

const IN_QUOTES = 'a value with the separator in it belongs in quotes'

function wrongSource({ figures }: Pack, name: string, source: string): string | undefined {
  const declaration = ownOf(figures.declarations, name)
  if (!declaration) return `only a figure has a source, and ${name} is none`
  const known = declaration.stated?.sources ?? []
  return known.includes(source)
    ? undefined
    : `${name} is not compared with ${quoted(source)}${didYouMean(source, known)}`
}

const moreRows = (count: number) => `and ${count} more rows from here on name nothing that the pack has`

type RowKind = 'head' | 'station' | 'figure' | 'situation'

function kindOf({ figures, situations }: Pack, name: string): RowKind | undefined {
  if ((HEAD_ROWS as readonly string[]).includes(name)) return 'head'
  if (figures.stations.some((station) => station.name === name)) return 'station'
  if (Object.hasOwn(figures.declarations, name)) return 'figure'
  return situations.some((situation) => situation.name === name) ? 'situation' : undefined
}

function namesIn({ figures, situations }: Pack): string[] {
  const named = [...figures.stations, ...situations].map(({ name }) => name)
  return [...HEAD_ROWS, ...named, ...Object.keys(figures.declarations)]
}

function pathOf(what: RowKind, name: string, source: string): Path {
  switch (what) {
    case 'head':
      return [name]
    case 'station':
      return ['loads', name]
    case 'situation':
      return ['situation', name]
    case 'figure':
      return source === '' ? ['values', name] : ['stated', source, name]
  }
}

/** Built of entries, never by setting a name on an object: "__proto__" would be more than a name then. */
function dataOf(entries: readonly Entry[]): Record<string, unknown> {
  const under = (...above: Path) => {
    const own = entries.filter(({ path }) => keyOf(path.slice(0, -1)) === keyOf(above))
    return Object.fromEntries(own.map(({ path, value }) => [path.at(-1), value]))
  }
  const sources = new Set(entries.flatMap(({ path }) => (path[0] === 'stated' ? [String(path[1])] : [])))
  return {
    ...under(),
    values: under('values'),
    loads: under('loads'),
    situation: under('situation'),
    stated: Object.fromEntries([...sources].map((source) => [source, under('stated', source)])),
  }
}

/** A bare number as one, unless its digits would be lost ("0421"); anything else stays text. */
function withUnit(text: string, unit: string): string | number {
  if (unit !== '') return `${text} ${unit}`
  return /^-?(0|[1-9]\d*)(\.\d+)?$/.test(text) ? Number(text) : text
}
