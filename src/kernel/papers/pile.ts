/**
 * The pile on the table: every edition of every paper, as the sheets came in. A paper on which nothing changed is not issued
 * again, so that an old edition may lie beside a new one of another paper.
 */

import type { Inputs } from '../figures/model.ts'
import { ownOf } from '../own.ts'
import type { Pack } from '../pack/checklist.ts'
import type { Paper } from '../pack/paper.ts'
import { isConstant, isIssued, type PrintedLine, type PrintedPaper, type PrintGround, print } from './print.ts'

/** A sheet as it came in. */
export interface Sheet {
  readonly inputs: Inputs
  /** ms from the start of the run; undefined before it. */
  readonly t?: number
}

export interface EditionLine extends PrintedLine {
  /** It reads otherwise than on the edition before, or was not there. */
  readonly changed?: boolean
}

export interface Edition extends PrintedPaper {
  readonly lines: readonly EditionLine[]
  /** Stable: "loadSheet.2"; of a card its paper's id. */
  readonly id: string
  /** From 1; undefined for a card, which is the same in every departure. */
  readonly number: number | undefined
  readonly t?: number
  /** What filled it in; undefined for a card. */
  readonly sheet?: Inputs
}

type Ground = Omit<PrintGround, 'sheet'>

/** The editions of all papers, in the pack's order, newest first within each. Cards are there without any sheet. */
export function pileOf(pack: Pack, sheets: readonly Sheet[], ground: Ground): readonly Edition[] {
  return pack.papers.flatMap((paper) => editionsOf(pack, paper, sheets, ground))
}

/** A card has no line that a sheet fills in. */
export const isCard = (pack: Pack, { lines }: Paper): boolean => lines.every((line) => isConstant(pack, line))

function editionsOf(pack: Pack, paper: Paper, sheets: readonly Sheet[], ground: Ground): readonly Edition[] {
  if (isCard(pack, paper))
    return [{ ...print(pack, paper, { ...ground, sheet: NO_SHEET }), id: paper.id, number: undefined }]
  const editions: Edition[] = []
  let before: PrintedPaper | undefined
  for (const { inputs, t } of sheets) {
    const filled = { ...ground, sheet: inputs }
    if (!isIssued(pack, paper, filled)) continue
    const printed = print(pack, paper, filled)
    const given = paper.edition === undefined ? undefined : ownOf(inputs.values, paper.edition)
    // A number of its own makes an edition, even where nothing else is new.
    const isNumbered = typeof given === 'number' && given !== editions[0]?.number
    if (before && isSame(before, printed) && !isNumbered) continue
    const count = editions.length + 1
    const number = typeof given === 'number' ? given : count
    const lines = before ? marked(before.lines, printed.lines) : printed.lines
    editions.unshift({
      ...printed,
      lines,
      id: `${paper.id}.${count}`,
      number,
      sheet: inputs,
      ...(t !== undefined && { t }),
    })
    before = printed
  }
  return editions
}

/** Lines are the same by their labels; of those with one label, such as last-minute changes, any with the same text will do. */
function marked(before: readonly PrintedLine[], lines: readonly PrintedLine[]): EditionLine[] {
  const had = new Set(before.map(({ label, text }) => `${label}: ${text}`))
  return lines.map((line) => {
    const isNew = line.heading === undefined && !had.has(`${line.label}: ${line.text}`)
    return isNew ? { ...line, changed: true } : line
  })
}

const NO_SHEET: Inputs = { status: 'preliminary', values: {}, loads: {} }

function isSame(one: PrintedPaper, other: PrintedPaper): boolean {
  return JSON.stringify(one.lines) === JSON.stringify(other.lines)
}

/** What came with the last sheet: editions that were not on the table before it. */
export function newOnes(pack: Pack, sheets: readonly Sheet[], ground: Ground): readonly Edition[] {
  const before = new Set(pileOf(pack, sheets.slice(0, -1), ground).map(({ id }) => id))
  return pileOf(pack, sheets, ground).filter(({ id }) => !before.has(id))
}
