/** How a figure is rounded from its exact value to the one that is spoken. */

import { kindOf } from '../kinds/kind.ts'
import type { Rounding } from '../numbers/rounding.ts'
import type { FigureDeclaration } from './pack.ts'

/** As the pack says, else to the nearest step of its kind; not at all for text. */
export function roundingOf({ round, spec }: Pick<FigureDeclaration, 'round' | 'spec'>): Rounding | undefined {
  if (round) return round
  const kind = kindOf(spec)
  return kind.values === 'numbers' ? { step: kind.step(spec), direction: 'nearest' } : undefined
}
