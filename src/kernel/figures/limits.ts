/** Figures against their limits: fixed ones (a structural maximum), and those that are figures themselves (a reserve, a runway's length). */

import type { Problem } from '../problem.ts'
import { convert, fits, type Unit } from '../units.ts'
import { formatMeasured } from './format.ts'
import type { ComputedFigure } from './model.ts'
import type { FigureModel, Operand } from './pack.ts'

export interface LimitCheck {
  readonly figure: string
  readonly label: string
  readonly bound: 'min' | 'max'
  /** The figure that is the limit; undefined for a number of the pack. */
  readonly by?: string
  /** As a pilot names it: "its limit", "the performance limited weight". */
  readonly named: string
  readonly value: number
  readonly limit: number
  /** What is left; below zero the limit is broken. */
  readonly margin: number
  readonly measure: Unit | undefined
}

/** Arithmetic's last bit breaks no limit. */
const SLACK = 1e-9

/** Of every figure that has a value and a limit that has one, in the pack's order. */
export function limitChecks(model: FigureModel, done: Readonly<Record<string, ComputedFigure>>): LimitCheck[] {
  return Object.values(model.declarations).flatMap(({ name, label, limits, measure }) => {
    const value = done[name]?.exact
    if (!limits || value === undefined) return []
    return (['min', 'max'] as const).flatMap((bound) =>
      [limits[bound] ?? []].flat().flatMap((operand): LimitCheck[] => {
        const limit = limitOf(operand, measure, done)
        if (limit === undefined) return []
        const by = typeof operand === 'string' ? operand : undefined
        const named = by === undefined ? 'its limit' : `the ${done[by]?.label ?? by}`
        const margin = bound === 'max' ? limit - value : value - limit
        return [{ figure: name, label, bound, ...(by !== undefined && { by }), named, value, limit, margin, measure }]
      }),
    )
  })
}

/** In the unit of the figure that it limits. */
function limitOf(operand: Operand, unit: Unit | undefined, done: Readonly<Record<string, ComputedFigure>>) {
  if (typeof operand !== 'string') return operand
  const { exact, measure } = done[operand] ?? {}
  if (exact === undefined) return undefined
  return unit && measure && fits(measure, unit) ? convert(exact, measure, unit) : exact
}

/** What is over and by how much; in brackets the values themselves, which a run may have to hide. */
export function limitProblem({ label, bound, named, value, limit, margin, measure }: LimitCheck): Problem[] {
  if (margin >= -SLACK * Math.max(1, Math.abs(limit))) return []
  const by = formatMeasured(-margin, measure)
  const values = `${formatMeasured(value, measure)}, limit ${formatMeasured(limit, measure)}`
  const way = bound === 'max' ? 'over' : 'below'
  const message = `${label} ${way} ${named} by ${by} (${values})`
  return [{ code: 'limit.exceeded', message, short: `${label} ${way} limit`, severity: 'error' }]
}
