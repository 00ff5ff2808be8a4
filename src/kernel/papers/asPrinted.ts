/**
 * What a source states is what its newest edition prints. A value typed off an old one, for which the new one leaves a blank,
 * is compared with nothing: a paper that says nothing neither agrees nor differs.
 */

import type { Inputs } from '../figures/model.ts'
import type { Value } from '../kinds/kind.ts'
import type { Pack } from '../pack/checklist.ts'
import { pileOf, type Sheet } from './pile.ts'
import { isBlankOn, type PrintGround } from './print.ts'

/** A source whose newest edition leaves figures blank. */
export interface Blanks {
  readonly title: string
  readonly edition: number | undefined
  readonly figures: ReadonlySet<string>
}

/** Source -> what its newest edition has a line for and leaves blank; nothing of a source without a sheet on the table. */
export function blanksOf(
  pack: Pack,
  sheets: readonly Sheet[],
  ground: Omit<PrintGround, 'sheet'>,
): ReadonlyMap<string, Blanks> {
  const blanks = new Map<string, Blanks>()
  const papers = pack.papers.filter(({ source }) => source !== undefined)
  const pile = pileOf({ ...pack, papers }, sheets, ground)
  for (const paper of papers) {
    const newest = pile.find((edition) => edition.paper.id === paper.id)
    const { source } = paper
    if (source === undefined || !newest?.sheet) continue
    const filled = { ...ground, sheet: newest.sheet }
    const figures = paper.lines.flatMap((line) =>
      'figure' in line && isBlankOn(pack, paper, line, filled) ? [line.figure] : [],
    )
    blanks.set(source, { title: paper.title, edition: newest.number, figures: new Set(figures) })
  }
  return blanks
}

/** Without what the newest editions do not print. */
export function asPrinted(inputs: Inputs, blanks: ReadonlyMap<string, Blanks>): Inputs {
  const { stated } = inputs
  if (!stated) return inputs
  const isOld = (source: string, name: string) => blanks.get(source)?.figures.has(name) ?? false
  const sources = Object.entries(stated)
  if (!sources.some(([source, values]) => Object.keys(values).some((name) => isOld(source, name)))) return inputs
  return {
    ...inputs,
    stated: Object.fromEntries(
      sources.map(([source, values]): [string, Record<string, Value>] => [
        source,
        Object.fromEntries(Object.entries(values).filter(([name]) => !isOld(source, name))),
      ]),
    ),
  }
}
