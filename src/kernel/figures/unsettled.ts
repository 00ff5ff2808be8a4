/** Why a figure has no value although everything was entered: sources of it, or of what it rests on, differ. */

import { compute } from './compute.ts'
import type { ComputedFigure, Inputs } from './model.ts'
import type { FigureModel } from './pack.ts'

/** The figure to be settled first; undefined where no difference is in the way of this one. */
export function unsettledFor(model: FigureModel, inputs: Inputs, name: string): ComputedFigure | undefined {
  const { figures } = compute(model, inputs)
  const inTheWay = (one: string, seen: ReadonlySet<string>): ComputedFigure | undefined => {
    const figure = figures[one]
    if (!figure || figure.value !== undefined || seen.has(one)) return undefined
    if (figure.sources?.some(({ within }) => !within)) return figure
    const uses = model.declarations[one]?.derived?.uses ?? []
    for (const used of uses) {
      const found = inTheWay(used, new Set([...seen, one]))
      if (found) return found
    }
    return undefined
  }
  return inTheWay(name, new Set())
}
