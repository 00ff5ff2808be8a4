/** From a computed set to the spoken values that a run keeps. */

import type { FigureSet } from '../kernel/figures/model.ts'
import type { Value } from '../kernel/kinds/kind.ts'

/** Spoken values of all figures that have one. */
export function valuesOf(figures: FigureSet['figures']): Record<string, Value> {
  return Object.fromEntries(
    Object.entries(figures).flatMap(([name, { value }]) => (value === undefined ? [] : [[name, value]])),
  )
}
