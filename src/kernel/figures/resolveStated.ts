/**
 * Sources side by side: what a load sheet, takeoff data or the flight computer states, against what is
 * computed or entered here. Beyond the pack's tolerance the figure counts only once a choice with a reason has settled it.
 */

import type { Value } from '../kinds/kind.ts'
import { isSameValue } from '../kinds/table.ts'
import { roundTo } from '../numbers/rounding.ts'
import { ownOf } from '../own.ts'
import type { Problem } from '../problem.ts'
import { formatMeasured } from './format.ts'
import type { Inputs, Reason, Settlement, StatedValue } from './model.ts'
import type { FigureDeclaration } from './pack.ts'
import { roundingOf } from './rounding.ts'
import { ownSource, sourceChosen, sourceWords } from './sources.ts'

export interface Resolved {
  /** Undefined while sources differ and nothing was chosen. */
  readonly value: Value | undefined
  /** The source that was chosen, where there was a choice. */
  readonly use?: string
  readonly sources?: readonly StatedValue[]
  readonly why: readonly Reason[]
  readonly problems: readonly Problem[]
}

/** What a source states of a figure; undefined where it states nothing. */
export const statedBy = ({ stated }: Inputs, source: string, name: string): Value | undefined =>
  ownOf(ownOf(stated, source), name)

/** Which value counts, of those stated and our own; `by`: whose `own` is, where it is not ours. */
export function resolveStated(
  declaration: FigureDeclaration,
  inputs: Inputs,
  own: Value,
  by = ownSource(declaration),
): Resolved {
  const ours: Resolved = { value: own, why: [], problems: [] }
  const others = (declaration.stated?.sources ?? []).flatMap((source): StatedValue[] => {
    const value = statedBy(inputs, source, declaration.name)
    return value === undefined || source === by ? [] : [compared(declaration, own, source, value)]
  })
  if (others.length === 0) return ours
  const sources = [compared(declaration, own, by, own), ...others]
  return sources.every(({ within }) => within) ? { ...ours, sources } : choose(declaration, inputs, sources)
}

/**
 * Numbers may be apart by the tolerance; a runway or a flap is the same or is not. They are compared as they are printed:
 * a sheet that has 24,360 agrees with stations that add up to 24,364 where both are rounded to ten.
 */
function compared(declaration: FigureDeclaration, own: Value, source: string, value: Value): StatedValue {
  const { spec, stated } = declaration
  if (typeof own !== 'number' || typeof value !== 'number') {
    return { source, value, within: isSameValue(spec, own, value) }
  }
  const difference = printed(declaration, value) - printed(declaration, own)
  // The slack keeps 0.1 apart within a tolerance of 0.1, whatever the last bit says.
  return { source, value, difference, within: Math.abs(difference) <= (stated?.tolerance ?? 0) + 1e-9 }
}

function printed(declaration: FigureDeclaration, value: number): number {
  const round = roundingOf(declaration)
  return round ? roundTo(value, round) : value
}

/** It was chosen when sources stated something else. */
export function isOutdated({ over }: Settlement, sources: readonly StatedValue[]): boolean {
  return over !== undefined && sources.some(({ source, value }) => ownOf(over, source) !== value)
}

function choose(declaration: FigureDeclaration, inputs: Inputs, sources: readonly StatedValue[]): Resolved {
  const { name, label, measure, stated } = declaration
  const settlement = ownOf(inputs.settled, name)
  const chosen = sources.find(({ source }) => source === settlement?.use)
  if (settlement && chosen && settlement.reason.trim() !== '' && !isOutdated(settlement, sources)) {
    const text = `settled on ${sourceWords(chosen.source)} ${formatMeasured(chosen.value, measure)}: ${settlement.reason}`
    return { value: chosen.value, use: chosen.source, sources, why: [{ text, uses: [] }], problems: [] }
  }
  const isOpen = chosen && settlement && !isOutdated(settlement, sources)
  if (isOpen)
    return open(
      sources,
      `${label}: ${sourceChosen(chosen.source)} is chosen without a reason, so it does not count; say why`,
    )
  const asPrinted = (value: Value) => (typeof value === 'number' ? printed(declaration, value) : value)
  const told = sources
    .map(({ source, value }) => `${sourceWords(source)} ${formatMeasured(asPrinted(value), measure)}`)
    .join(', ')
  const by = stated?.tolerance ? ` by more than ${formatMeasured(stated.tolerance, measure)}` : ''
  return open(sources, `${label}: sources differ${by} (${told}); choose one and say why`)
}

function open(sources: readonly StatedValue[], message: string): Resolved {
  return {
    value: undefined,
    sources,
    why: [{ text: message, uses: [] }],
    problems: [{ code: 'source.differs', message, severity: 'error' }],
  }
}
