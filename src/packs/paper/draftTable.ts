/**
 * A table from a spreadsheet, as text -> a table of a pack. First row and first column are its axes. A cell that is empty, or
 * no number, is left open (`~`) and told: `check` then says so as well, and nothing is put in its place.
 */

import { LARGEST_NUMBER } from '../../kernel/bounds.ts'
import { onOneLine, quoted } from '../../kernel/quoted.ts'
import type { Unit } from '../../kernel/units.ts'
import { idFrom } from './names.ts'
import { clean, type Row, rowsIn, squared, type TableQuestion, type WithUnit, withoutUnit } from './tableCells.ts'
import { numberOf, type Signs, signsOf, tidyNumber } from './tableNumbers.ts'
import { scalar } from './writePack.ts'

export interface TableDraft {
  /** Of the table in tables.yaml. */
  readonly name: string
  /** All of tables.yaml with this table in it. */
  readonly yaml: string
  /** `line` is that of the text, from 1. */
  readonly questions: readonly TableQuestion[]
}

interface Axis {
  readonly label: string
  readonly unit: Unit | undefined
  readonly entries: readonly string[]
  readonly numbers: readonly number[] | undefined
}

/** `name` is what the table is to be called; undefined where the text holds no table. Never throws. */
export function draftTable(text: string, name?: string): TableDraft | undefined {
  const questions: TableQuestion[] = []
  const { title, rows } = rowsIn(text, questions)
  const [head, ...body] = rows
  if (!head || body.length === 0 || head.cells.length < 2) return undefined
  const cells = rows.flatMap((row) => row.cells).map((cell) => tidyNumber(withoutUnit(cell).text))
  const signs = signsFor(cells, head.line, questions)
  const table = squared(head, body, questions)
  const [inCorner, columnLabel] = corner(head, signs, questions)
  const ofCells = title === undefined && isOfCells(inCorner, table.rows)
  const rowLabel = ofCells ? '' : inCorner
  const down = axisOf(
    rowLabel,
    table.rows.map((row) => row.cells[0] ?? ''),
    signs,
  )
  const across = axisOf(columnLabel, head.cells.slice(1), signs)
  const one = oneAxis(head, table.rows, down, across, signs)
  const made = one ?? {
    axes: [down, across],
    cells: table.rows.map((row) => row.cells.slice(1)),
    lines: table.rows.map((row) => row.line),
    label: undefined,
  }
  const label = clean(title?.text ?? (ofCells ? inCorner : undefined) ?? made.label ?? 'table')
  const unit = withoutUnit(label)
  const id = name ?? idFrom(unit.text, new Set(), 'table')
  const yaml = tableText(id, unit, made, signs, head.line, questions)
  return { name: id, yaml, questions: questions.toSorted((a, b) => a.line - b.line) }
}

function signsFor(cells: readonly string[], line: number, questions: TableQuestion[]): Signs {
  const signs = signsOf(cells)
  if (!signs) {
    questions.push({
      line,
      text: 'some numbers have decimal commas and others decimal points; those with commas are left open',
    })
    return { decimal: '.', unclear: false }
  }
  if (signs.unclear)
    questions.push({
      line,
      text: 'before three digits a comma is taken to part thousands, a point for decimals; it may be the other way round',
    })
  return signs
}

/** A unit in the corner that the rows, which say theirs or what they are, do not have: "Rotate speed (kt)" above "1800 lb". */
function isOfCells(corner: string, rows: readonly Row[]): boolean {
  const { unit } = withoutUnit(corner)
  const entries = rows.map(({ cells }) => cells[0] ?? '')
  const own = entries.map((entry) => withoutUnit(entry).unit)
  const isSaid = own.every((one) => one !== undefined && one !== unit) || commonWord(entries) !== ''
  return unit !== undefined && rows.length > 1 && isSaid
}

/** What the corner says of both axes: "Weight \ Flap", "Weight / Flap". */
function corner(head: Row, signs: Signs, questions: TableQuestion[]): readonly [string, string] {
  const text = head.cells[0] ?? ''
  const parts = text
    .split(/[\\|/]/)
    .map((part) => part.trim())
    .filter(Boolean)
  if (parts.length === 2) {
    questions.push({
      line: head.line,
      text: `${quoted(text)}: ${quoted(parts[0] ?? '')} is taken for the rows, ${quoted(parts[1] ?? '')} for the columns`,
    })
    return [parts[0] ?? '', parts[1] ?? '']
  }
  if (numberOf(text, signs) !== undefined) return ['', '']
  if (text !== '') questions.push({ line: head.line, text: `${quoted(text)} is taken for the name of the rows` })
  return [text, '']
}

function axisOf(label: string, entries: readonly string[], signs: Signs): Axis {
  const common = label === '' ? commonWord(entries) : ''
  const named = withoutUnit(label === '' ? common : label)
  const bare = entries.map((entry) => withoutUnit(entry.slice(common.length).trim()))
  const numbers = bare.map(({ text }) => numberOf(text, signs))
  const units = new Set(bare.map(({ unit }) => unit))
  const own = units.size === 1 ? bare[0]?.unit : undefined
  const isNumbers = numbers.every((one) => one !== undefined) && numbers.length > 1
  return { label: named.text, unit: named.unit ?? own, entries, numbers: isNumbers ? (numbers as number[]) : undefined }
}

/** What all begin with: "CG" of "CG 20 %MAC" and "CG 25 %MAC". */
function commonWord(entries: readonly string[]): string {
  const word = /^\p{L}+(?= )/u.exec(entries[0] ?? '')?.[0] ?? ''
  return word !== '' && entries.length > 1 && entries.every((entry) => entry.startsWith(`${word} `)) ? word : ''
}

interface Made {
  readonly axes: readonly Axis[]
  readonly cells: readonly (readonly string[])[]
  readonly lines: readonly number[]
  readonly label: string | undefined
}

/** A table of two columns, or of two rows, has one axis. */
function oneAxis(head: Row, body: readonly Row[], down: Axis, across: Axis, signs: Signs): Made | undefined {
  const lines = body.map(({ line }) => line)
  if (head.cells.length === 2 && body.length > 1) {
    const hasHead = numberOf(withoutUnit(head.cells[1] ?? '').text, signs) === undefined
    const rows = hasHead ? body : [head, ...body]
    const axis = hasHead
      ? down
      : axisOf(
          '',
          rows.map((row) => row.cells[0] ?? ''),
          signs,
        )
    return {
      axes: [axis],
      cells: rows.map((row) => [row.cells[1] ?? '']),
      lines: hasHead ? lines : [head.line, ...lines],
      label: hasHead ? head.cells[1] : undefined,
    }
  }
  const [only] = body
  if (body.length > 1 || !only) return undefined
  const axis = {
    ...across,
    label: down.label === '' ? across.label : withoutUnit(head.cells[0] ?? '').text,
    unit: across.unit ?? withoutUnit(head.cells[0] ?? '').unit,
  }
  return {
    axes: [axis],
    cells: only.cells.slice(1).map((cell) => [cell]),
    lines: only.cells.slice(1).map(() => only.line),
    label: only.cells[0],
  }
}

function tableText(
  id: string,
  label: WithUnit,
  made: Made,
  signs: Signs,
  line: number,
  questions: TableQuestion[],
): string {
  const ask = (at: number, text: string) => {
    questions.push({ line: at, text })
    return `# ? line ${at}: ${onOneLine(text)}`
  }
  const out = ['tables:', `  ${id}:`, `    label: ${scalar(label.text || 'table')}`]
  if (label.unit === undefined) out.push(`    ${ask(line, 'the table does not say the unit of its cells')}`)
  out.push(`    unit: ${scalar(label.unit ?? 'none')}`, '    axes:')
  const order = made.axes.map(turn)
  const names = new Set<string>()
  for (const [index, axis] of made.axes.entries()) {
    const side = made.axes.length === 1 ? 'axis' : index === 0 ? 'rows' : 'columns'
    if (axis.label === '')
      out.push(`      ${ask(line, `nothing says what the ${side} ${side === 'axis' ? 'is' : 'are'}`)}`)
    const name = idFrom(axis.label, names, index === 0 ? 'row' : 'column')
    const shown = axis.label === '' ? '' : `label: ${scalar(axis.label)}, `
    const turned = order[index]
    if (axis.numbers && turned) {
      if (axis.unit === undefined) out.push(`      ${ask(line, `no unit stands with the values of the ${side}`)}`)
      if (turned.isTurned)
        out.push(
          `      ${ask(line, `the values of the ${side} fall; they are turned round, for those of a pack rise`)}`,
        )
      out.push(
        `      - {name: ${name}, ${shown}unit: ${scalar(axis.unit ?? 'none')}, at: [${turned.places.map((at) => axis.numbers?.[at]).join(', ')}]}`,
      )
    } else {
      if (axis.numbers)
        out.push(
          `      ${ask(line, `the values of the ${side} neither rise nor fall, or one stands twice; put them in order`)}`,
        )
      out.push(
        `      - {name: ${name}, ${shown}choices: [${axis.entries.map((entry) => JSON.stringify(entry || 'none')).join(', ')}]}`,
      )
      if (axis.entries.some((entry) => entry === ''))
        out.push(`      ${ask(line, `one value of the ${side} is empty`)}`)
    }
  }
  out.push('    cells:')
  const placesOf = (axis: Axis | undefined, index: number) => order[index]?.places ?? axis?.entries.map((_, at) => at)
  const rows = placesOf(made.axes[0], 0) ?? []
  const columns = placesOf(made.axes[1], 1)
  for (const at of rows) {
    const cells = made.cells[at] ?? []
    const own = (columns ?? cells.map((_, index) => index)).map((index) => cells[index] ?? '')
    const open: string[] = []
    const shown = own.map((cell) => {
      const number = numberOf(withoutUnit(cell).text, signs)
      if (number !== undefined && Math.abs(number) <= LARGEST_NUMBER) return String(number)
      open.push(cell === '' ? 'a cell is empty' : `${quoted(cell)} is no number`)
      return '~'
    })
    for (const text of open) out.push(`      ${ask(made.lines[at] ?? line, text)}`)
    out.push(`      - ${columns ? `[${shown.join(', ')}]` : shown[0]}`)
  }
  return `${out.join('\n')}\n`
}

/** The places of the entries in rising order; as they stand where they are names. */
function turn({
  numbers,
  entries,
}: Axis): { readonly places: readonly number[]; readonly isTurned: boolean } | undefined {
  const places = entries.map((_, index) => index)
  if (!numbers) return { places, isTurned: false }
  const rises = numbers.every((one, index) => index === 0 || one > (numbers[index - 1] ?? 0))
  const falls = numbers.every((one, index) => index === 0 || one < (numbers[index - 1] ?? 0))
  return rises || falls ? { places: falls ? places.toReversed() : places, isTurned: falls } : undefined
}
