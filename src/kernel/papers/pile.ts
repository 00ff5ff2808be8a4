/**
 * The pile on the table: every edition of every paper, as the sheets came in. A paper on which nothing changed is not issued
 * again, so that an old edition may lie beside a new one of another paper.
 */

import type { Inputs } from '../figures/model.ts'
import type { Pack } from '../pack/checklist.ts'
import type { Paper } from '../pack/paper.ts'
import { isIssued, type PrintedPaper, type PrintGround, print } from './print.ts'

/** A sheet as it came in. */
export interface Sheet {
  readonly inputs: Inputs
  /** ms from the start of the run; undefined before it. */
  readonly t?: number
}

export interface Edition extends PrintedPaper {
  /** Stable: "loadSheet.2"; of a card its paper's id. */
  readonly id: string
  /** From 1; undefined for a card, which is the same in every departure. */
  readonly number: number | undefined
  readonly t?: number
}

type Ground = Omit<PrintGround, 'sheet'>

/** The editions of all papers, in the pack's order, newest first within each. Cards are there without any sheet. */
export function pileOf(pack: Pack, sheets: readonly Sheet[], ground: Ground): readonly Edition[] {
  return pack.papers.flatMap((paper) => editionsOf(pack, paper, sheets, ground))
}

/** A card has no line that a sheet fills in. */
export const isCard = ({ lines }: Paper): boolean => lines.every((line) => 'heading' in line || 'text' in line)

function editionsOf(pack: Pack, paper: Paper, sheets: readonly Sheet[], ground: Ground): readonly Edition[] {
  if (isCard(paper)) return [{ ...print(pack, paper, { ...ground, sheet: NO_SHEET }), id: paper.id, number: undefined }]
  const editions: Edition[] = []
  for (const { inputs, t } of sheets) {
    const filled = { ...ground, sheet: inputs }
    if (!isIssued(pack, paper, filled)) continue
    const printed = print(pack, paper, filled)
    if (editions[0] && isSame(editions[0], printed)) continue
    const number = editions.length + 1
    editions.unshift({ ...printed, id: `${paper.id}.${number}`, number, ...(t !== undefined && { t }) })
  }
  return editions
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
