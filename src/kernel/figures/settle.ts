/**
 * Sources side by side: what a load sheet, a performance sheet or the flight computer states, against what is
 * computed here. Beyond the pack's tolerance the figure counts only once a choice with a reason has settled it.
 */

import type { Value } from '../kinds/kind.ts'
import type { Problem } from '../problem.ts'
import type { Inputs, Reason, StatedValue } from './model.ts'
import type { FigureDeclaration } from './pack.ts'
import { showMeasured } from './showing.ts'

/** The own computation's name among the sources. */
export const COMPUTED = 'computed'

export interface Settled {
  /** Undefined while sources differ and nothing was chosen. */
  readonly value: Value | undefined
  readonly sources?: readonly StatedValue[]
  readonly why: readonly Reason[]
  readonly problems: readonly Problem[]
}

/** Which value counts, of those stated and the computed one. */
export function countsAs(declaration: FigureDeclaration, inputs: Inputs, computed: Value): Settled {
  if (typeof computed !== 'number' || !declaration.stated) return { value: computed, why: [], problems: [] }
  const { sources: names, tolerance } = declaration.stated
  const sources: StatedValue[] = [{ source: COMPUTED, value: computed, difference: 0, within: true }]
  for (const source of names) {
    const value = inputs.stated?.[source]?.[declaration.name]
    if (typeof value !== 'number') continue
    const difference = value - computed
    // The slack keeps 0.1 apart within a tolerance of 0.1, whatever the last bit says.
    sources.push({ source, value, difference, within: Math.abs(difference) <= tolerance + 1e-9 })
  }
  if (sources.length === 1) return { value: computed, why: [], problems: [] }
  if (sources.every(({ within }) => within)) return { value: computed, sources, why: [], problems: [] }
  return choose(declaration, inputs, sources)
}

function choose(declaration: FigureDeclaration, inputs: Inputs, sources: readonly StatedValue[]): Settled {
  const { name, label, measure } = declaration
  const settlement = inputs.settled?.[name]
  const chosen = sources.find(({ source }) => source === settlement?.use)
  if (settlement && chosen && settlement.reason.trim() !== '') {
    const text = `settled on ${chosen.source} ${showMeasured(chosen.value, measure)}: ${settlement.reason}`
    return { value: chosen.value, sources, why: [{ text, uses: [] }], problems: [] }
  }
  const told = sources.map(({ source, value }) => `${source} ${showMeasured(value, measure)}`).join(', ')
  const tolerance = showMeasured(declaration.stated?.tolerance ?? 0, measure)
  const message = `${label}: sources differ by more than ${tolerance} (${told}); choose one and say why`
  return {
    value: undefined,
    sources,
    why: [{ text: message, uses: [] }],
    problems: [{ code: 'source.differs', message, severity: 'error' }],
  }
}
