/**
 * The next edition of a paper. A sheet that was wrong does not stay the newest one: once the pilot has settled a difference
 * against it, its office sends it again with what is right.
 */

import type { ComputedFigure, FigureSet, Inputs } from '../figures/model.ts'
import type { FigureDeclaration } from '../figures/pack.ts'
import { roundingOf } from '../figures/rounding.ts'
import { ownSource } from '../figures/sources.ts'
import type { Value } from '../kinds/kind.ts'
import { roundTo } from '../numbers/rounding.ts'
import { ownOf } from '../own.ts'
import type { Pack } from '../pack/checklist.ts'

/** Numbers of papers are one higher: of all that are numbered, or of those of one source. */
export function nextEdition(pack: Pack, inputs: Inputs, source?: string): Inputs {
  const numbered = pack.papers.filter((paper) => source === undefined || paper.source === source)
  const values = numbered.flatMap(({ edition }): [string, Value][] => {
    const number = edition === undefined ? undefined : ownOf(inputs.values, edition)
    return edition !== undefined && typeof number === 'number' ? [[edition, number + 1]] : []
  })
  return values.length === 0 ? inputs : { ...inputs, values: { ...inputs.values, ...Object.fromEntries(values) } }
}

interface Settled {
  readonly inputs: Inputs
  /** Computed from them. */
  readonly set: FigureSet
  /** What was settled before. */
  readonly before: Inputs['settled']
  /** The last sheet that came in. */
  readonly sheet: Inputs
}

/**
 * The sheet as it comes in again, and the figures with its new number; undefined where nothing was settled against a paper,
 * or the paper was put right before.
 */
export function corrected(
  pack: Pack,
  { inputs, set, before, sheet }: Settled,
): { readonly sheet: Inputs; readonly inputs: Inputs } | undefined {
  const wrong = new Set(
    Object.entries(inputs.settled ?? {}).flatMap(([name, { use, reason }]) => {
      const last = before?.[name]
      if (last?.use === use && last.reason === reason) return []
      const sources = set.figures[name]?.value === undefined ? [] : (set.figures[name]?.sources ?? [])
      return sources.flatMap(({ source, within }) => (!within && source !== use ? [source] : []))
    }),
  )
  let [next, changed] = [sheet, inputs]
  for (const source of wrong) {
    if (!pack.papers.some((paper) => paper.source === source)) continue
    const right = rightValues(pack, set, source)
    const stated = ownOf(next.stated, source) ?? {}
    if (Object.entries(right).every(([name, value]) => stated[name] === value)) continue
    next = { ...next, stated: { ...next.stated, [source]: { ...stated, ...right } } }
    changed = nextEdition(pack, changed, source)
  }
  return next === sheet
    ? undefined
    : { sheet: { ...next, values: { ...next.values, ...numbersOf(pack, changed) } }, inputs: changed }
}

/** What a source should have stated where it is beyond the tolerance. */
function rightValues({ figures }: Pack, set: FigureSet, source: string): Record<string, Value> {
  return Object.fromEntries(
    Object.values(figures.declarations).flatMap((declaration): [string, Value][] => {
      const figure = set.figures[declaration.name]
      const isWrong = figure?.sources?.some((one) => one.source === source && !one.within)
      const value = isWrong ? rightValue(declaration, figure) : undefined
      return value === undefined ? [] : [[declaration.name, value]]
    }),
  )
}

/** As it was settled; our own value while nobody has settled it. */
function rightValue(declaration: FigureDeclaration, figure: ComputedFigure | undefined): Value | undefined {
  if (figure?.value !== undefined) return figure.value
  const own = figure?.sources?.find(({ source }) => source === ownSource(declaration))?.value
  const round = roundingOf(declaration)
  return typeof own === 'number' && round ? roundTo(own, round) : own
}

function numbersOf({ papers }: Pack, { values }: Inputs): Record<string, Value> {
  return Object.fromEntries(
    papers.flatMap(({ edition }) =>
      edition !== undefined && values[edition] !== undefined ? [[edition, values[edition]]] : [],
    ),
  )
}
