/**
 * A paper filled in from a sheet: what somebody states or has entered, never what Otherseat computes (law 4). Cards hold
 * tables and lists and need no sheet.
 */

import { band } from '../figures/entered.ts'
import { formatMeasured } from '../figures/format.ts'
import { cellAt } from '../figures/lookup.ts'
import type { Inputs } from '../figures/model.ts'
import type { Axis, FigureDeclaration, Table } from '../figures/pack.ts'
import { shownAs } from '../figures/shown.ts'
import { captionOf, cellWriter, entriesOf, titleOf } from '../figures/tableShown.ts'
import type { Value } from '../kinds/kind.ts'
import { ownOf } from '../own.ts'
import type { Note, Pack } from '../pack/checklist.ts'
import type { Paper, PaperLine } from '../pack/paper.ts'
import { listById, readingOrder, responseOf } from '../pack/place.ts'
import { outlineOf } from '../response/sentence.ts'

export interface PrintedLine {
  readonly heading?: string
  readonly label: string
  /** With its unit; empty where the sheet says nothing: a line to write on. */
  readonly text: string
  /** What it must not be beyond: "max 26,480 kg". */
  readonly limit?: string
}

/** A table in blocks of rows and columns; axes beyond the second are told in each block's title. */
export interface PrintedTable {
  readonly caption: string
  readonly rowAxis: string
  readonly columnAxis: string
  readonly blocks: readonly {
    /** "flap 12"; empty where there is one block. */
    readonly title: string
    readonly columns: readonly string[]
    readonly rows: readonly { readonly head: string; readonly cells: readonly string[] }[]
  }[]
}

export interface PrintedList {
  readonly name: string
  readonly rows: readonly PrintedRow[]
}

/** An item, or a note or a heading between the items. */
export interface PrintedRow {
  readonly type: 'item' | Note['type']
  readonly challenge: string
  readonly response: string
}

export interface PrintedPaper {
  readonly paper: Paper
  readonly lines: readonly PrintedLine[]
  readonly tables: readonly PrintedTable[]
  readonly lists: readonly PrintedList[]
}

/** What is printed from: a sheet as it came in, the situation of the run, and whether stations give what is theirs to give. */
export interface PrintGround {
  readonly sheet: Inputs
  readonly situation: Readonly<Record<string, string>>
  readonly hasStations: boolean
}

export function print(pack: Pack, paper: Paper, ground: PrintGround): PrintedPaper {
  const tables = pack.figures.basis?.tables ?? {}
  return {
    paper,
    lines: paper.lines.flatMap((line) => printedLines(pack, paper, line, ground)),
    tables: paper.tables.flatMap((name) => ownOf(tables, name) ?? []).map(printedTable),
    lists: paper.lists.map((id) => printedList(pack, id, ground.situation)),
  }
}

function printedLines(pack: Pack, paper: Paper, line: PaperLine, ground: PrintGround): PrintedLine[] {
  const { sheet } = ground
  const { figures, situations } = pack
  if ('heading' in line) return [{ heading: line.heading, label: '', text: '' }]
  if ('text' in line) return [{ label: line.label, text: line.text }]
  if ('status' in line) return [{ label: line.status, text: sheet.status }]
  const weight = (value: number) => formatMeasured(value, figures.basis?.units.weight)
  if ('load' in line) {
    const station = figures.stations.find(({ name }) => name === line.load)
    const load = ownOf(sheet.loads, line.load)
    return [{ label: line.label ?? station?.label ?? line.load, text: load === undefined ? '' : weight(load) }]
  }
  if ('situation' in line) {
    const situation = situations.find(({ name }) => name === line.situation)
    const value = ownOf(sheet.situation, line.situation)
    const option = situation?.options.find((one) => one.value === value)
    return [{ label: line.label ?? situation?.label ?? line.situation, text: option?.label ?? '' }]
  }
  if ('lastMinute' in line) {
    const { lastMinute: changes = [] } = sheet
    if (changes.length === 0) return [{ label: line.lastMinute, text: 'none' }]
    return changes.map(({ station, weight: moved, count }) => {
      const label = figures.stations.find(({ name }) => name === station)?.label ?? station
      const text = count === undefined ? weight(moved ?? 0) : String(count)
      return { label: `${line.lastMinute}, ${label}`, text: text.startsWith('-') ? text : `+${text}` }
    })
  }
  const declaration = ownOf(figures.declarations, line.figure)
  if (!declaration || (declaration.given && ground.hasStations)) return []
  const value = valueOn(paper, sheet, line.figure, declaration.constant)
  const limit = line.limits ? limitText(declaration) : ''
  const text = value === undefined ? '' : shownAs(declaration, value)
  return [{ label: line.label ?? declaration.label, text, ...(limit && { limit }) }]
}

/** Structural limits are printed; what another figure limits stands in a line of its own. */
function limitText({ limits = {}, measure }: FigureDeclaration): string {
  const told = (['min', 'max'] as const).flatMap((bound) =>
    [limits[bound] ?? []]
      .flat()
      .map((one) => (typeof one === 'number' ? `${bound} ${formatMeasured(one, measure)}` : '')),
  )
  return told.filter((one) => one).join(', ')
}

/** A line that is there for the sheet to fill in, and that it leaves blank. */
export const isBlankOn = (pack: Pack, paper: Paper, line: PaperLine, ground: PrintGround): boolean =>
  printedLines(pack, paper, line, ground).some(({ text }) => text === '')

/** The same in every departure. */
export const isConstant = ({ figures }: Pack, line: PaperLine): boolean =>
  'heading' in line ||
  'text' in line ||
  ('figure' in line && ownOf(figures.declarations, line.figure)?.constant !== undefined)

/** Whether the sheet says anything of this departure that the paper prints; of its status and the like any sheet does. */
export function isIssued(pack: Pack, paper: Paper, ground: PrintGround): boolean {
  const numbers = paper.lines.filter((line) => ('load' in line || 'figure' in line) && !isConstant(pack, line))
  if (numbers.length === 0) return true
  return numbers.some((line) =>
    'load' in line
      ? ownOf(ground.sheet.loads, line.load) !== undefined
      : printedLines(pack, paper, line, ground).some(({ text }) => text !== ''),
  )
}

/** The source's word first; then what goes with the departure as it was handed in. */
function valueOn(paper: Paper, sheet: Inputs, name: string, constant: Value | undefined): Value | undefined {
  const stated = paper.source === undefined ? undefined : ownOf(ownOf(sheet.stated, paper.source), name)
  return stated ?? ownOf(sheet.values, name) ?? constant
}

/** Axis -> number of its entry. */
type Place = ReadonlyMap<Axis | undefined, number>

/** Choices are told apart first, as a crew looks a table up: the flap's block, then row and column. */
function printedTable(table: Table): PrintedTable {
  const order = [...table.axes.filter((axis) => 'choices' in axis), ...table.axes.filter((axis) => 'at' in axis)]
  const cut = table.axes.length > 2 ? order.slice(0, table.axes.length - 2) : []
  const [rows, columns] = table.axes.filter((axis) => !cut.includes(axis))
  const written = cellWriter(table)
  const cuts = cut.reduce<Place[]>(
    (some, axis) => some.flatMap((place) => entriesOf(axis).map((_, index) => new Map([...place, [axis, index]]))),
    [new Map()],
  )
  const cell = (place: Place) =>
    written(
      cellAt(
        table,
        table.axes.map((axis) => place.get(axis) ?? 0),
      ).value,
    )
  return {
    caption: captionOf(table),
    rowAxis: rows ? titleOf(rows) : '',
    columnAxis: columns ? titleOf(columns) : '',
    blocks: cuts.map((at) => ({
      title: cut.map((axis) => `${axis.label} ${entriesOf(axis)[at.get(axis) ?? 0]}`).join(', '),
      columns: entriesOf(columns),
      rows: entriesOf(rows).map((head, row) => ({
        head,
        cells: entriesOf(columns).map((_, column) => cell(new Map([...at, [rows, row], [columns, column]]))),
      })),
    })),
  }
}

/** Where a reading must lie, as a card has it; empty where nothing limits it, or only figures do. */
export function limitsShown({ read = {}, measure }: Partial<FigureDeclaration>): string {
  const ends = Object.entries(read).filter(([, end]) => typeof end === 'number')
  return ends.length === 0 ? '' : band(Object.fromEntries(ends), measure)
}

/** Limits of a gauge stand on the card; other values are left to be filled in. */
function blankFor(declaration: Partial<FigureDeclaration> = {}): string {
  const limits = limitsShown(declaration)
  return limits === '' ? '_____' : `_____ (${limits})`
}

function printedList(pack: Pack, id: string, situation: PrintGround['situation']): PrintedList {
  const list = listById(pack, id)
  // A card holds every item that figures may ask for.
  const ground = { situation, values: {} }
  const blank = (name: string) => blankFor(ownOf(pack.figures.declarations, name))
  return {
    name: list.name,
    rows: readingOrder(list, ground).flatMap((entry): PrintedRow[] => {
      if (entry.type === 'line') return []
      if (entry.type !== 'item') return [{ type: entry.type, challenge: entry.text, response: '' }]
      // A question is answered by how it is, which a card does not say.
      const response = entry.decides ? '' : outlineOf(responseOf(entry, ground), blank)
      return [{ type: 'item', challenge: entry.challenge, response }]
    }),
  }
}
