/** How values are mistaken: one step beside, within what the instrument shows. */

import { roundTo } from '../numbers/rounding.ts'
import type { Seeded } from '../seeded.ts'
import type { ScaleEnds } from './value.ts'

/** One step up or down, whichever the scale allows; rounded to `finest`. */
export function oneStepOff(
  value: number,
  step: number,
  { min, max }: ScaleEnds,
  chance: Seeded,
  finest = Math.min(step, 1),
): number | undefined {
  const signs = chance.below(2) === 0 ? [1, -1] : [-1, 1]
  return signs
    .map((sign) => roundTo(value + sign * step, { step: finest, direction: 'nearest' }))
    .find((other) => other >= min && other <= max)
}
