/** The cells of a line -> what is asked and answered: one item, several, half of one. */

import { quoted } from '../../kernel/quoted.ts'
import { BLANK, columnsOf, dividedLine } from './cells.ts'
import { endsInAnswer, type LineKind } from './lineKinds.ts'
import { blankOrLeader, seatIn } from './looseLines.ts'

export type ItemLine = Extract<LineKind, { is: 'item' }>

export interface LineItem {
  readonly challenge: string
  readonly answer: string
  readonly doubts: readonly string[]
}

/** `answer` is one without anything asked; `words` a line that has no answer after all. */
export type ReadLine =
  | { readonly items: readonly LineItem[] }
  | { readonly answer: string }
  | { readonly words: string }

const SEVERAL = 'several items stand on one line: are they of the same list, in this order?'

/** `seats` holds the seats that were told already. */
export function readItemLine(kind: ItemLine, seats: Set<string>): ReadLine {
  const { cells, by, mark } = kind
  const [first = '', ...rest] = cells
  const last = rest.at(-1) ?? ''
  const doubts = mark === '' ? [] : [markTold(mark)]
  if (first === '' && rest.length === 1) return { answer: last }
  const several = by === 'columns' || by === 'tab' ? cells.map(dividedLine) : []
  if (
    several.length > 1 &&
    several.every((one) => one?.cells.length === 2 && one.by !== 'capitals' && one.by !== 'blank')
  ) {
    return {
      items: several.map((one) => ({ challenge: one?.cells[0] ?? '', answer: one?.cells[1] ?? '', doubts: [SEVERAL] })),
    }
  }
  const pairs = pairsOf(kind)
  if (pairs) return { items: pairs.map(([challenge, answer]) => ({ challenge, answer, doubts: [SEVERAL] })) }
  if (by === 'blank') {
    const { answer, doubt } = blankOrLeader(first, last)
    return { items: [{ challenge: first, answer, doubts: doubt ? [...doubts, doubt] : doubts }] }
  }
  if (by === 'capitals' && !endsInAnswer(cells)) return { words: cells.join(' ') }
  if (rest.length > 1) return { items: [manyCells(first, rest, kind, doubts, seats)] }
  const { cells: columns } = columnsOf(last)
  if (by === 'leader' && columns.length > 1) return { items: [manyCells(first, columns, kind, doubts, seats)] }
  if (by === 'dash' && last.includes(' - ')) {
    doubts.push(`two dashes: ${quoted(first)} is taken for what is asked, the rest for the answer`)
  }
  return { items: [{ challenge: first, answer: last, doubts }] }
}

export const markTold = (mark: string) =>
  `${quoted(mark)} marks this item on the paper; what it means is not in the text`

/** More than an answer behind what is asked: a seat, a remark, or an answer in several pieces. */
function manyCells(
  first: string,
  rest: readonly string[],
  { by }: ItemLine,
  marked: readonly string[],
  seats: Set<string>,
): LineItem {
  const doubts = [...marked]
  const kept: string[] = []
  const [challenge, cells] = first === '' && rest.length > 1 ? [rest[0] ?? '', rest.slice(1)] : [first, rest]
  for (const cell of cells) {
    const seat = kept.length > 0 ? seatIn(cell) : undefined
    if (seat) {
      if (!seats.has(cell.toLowerCase()) || seat === 'both') doubts.push(seatTold(cell, seat))
      seats.add(cell.toLowerCase())
    } else if (!/^[☐ []*\]?$/.test(cell)) kept.push(cell)
  }
  if (kept.length > 1) doubts.push(`${kept.map(quoted).join(' and ')} stand apart: is all of it the answer?`)
  const answer = kept.join(', ')
  if (by !== 'leader' || cells[0] !== '' || kept.length !== 1) return { challenge, answer, doubts }
  return {
    challenge,
    answer: `${BLANK} ${answer}`,
    doubts: [...doubts, 'the second row of signs is taken for a value that is written in'],
  }
}

const seatTold = (cell: string, seat: 'one' | 'both') =>
  seat === 'both'
    ? `${quoted(cell)}: do both seats answer? The pilot alone does here; write answers: both`
    : `${quoted(cell)} says who answers, here and below; the pilot answers everything here, or write answers: both`

/** Two challenges with their answers on one line. */
function pairsOf({ cells, by }: ItemLine): readonly (readonly [string, string])[] | undefined {
  const [one = '', two = '', three = '', four = ''] = cells
  if (by === 'leader' && cells.length === 3) {
    const { cells: middle } = columnsOf(two)
    if (middle.length === 2 && one !== '')
      return [
        [one, middle[0] ?? ''],
        [middle[1] ?? '', three],
      ]
  }
  if ((by === 'columns' || by === 'tab') && cells.length === 4)
    return [
      [one, two],
      [three, four],
    ]
  return undefined
}
