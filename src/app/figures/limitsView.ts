/** Figures against their limits, with what is left: weights against their maxima, fuel against what is required. */

import { formatMeasured } from '../../kernel/figures/format.ts'
import { limitChecks } from '../../kernel/figures/limits.ts'
import type { FigureSet } from '../../kernel/figures/model.ts'
import { roundTo } from '../../kernel/numbers/rounding.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Hidden } from './hiddenFigures.ts'

export interface LimitView {
  readonly label: string
  readonly shown: string
  /** "at most 31,640 kg", "at least 760 kg (final reserve)". */
  readonly limit: string
  /** "1,558 kg left", "over by 320 kg". */
  readonly margin: string
  readonly isBroken: boolean
}

/** Leaves out what would give a hidden value away. */
export function limitViews(
  { figures }: Pack,
  set: FigureSet,
  hidden: ReadonlyMap<string, Hidden>,
): readonly LimitView[] {
  return limitChecks(figures, set.figures).flatMap((check) => {
    const { figure, label, bound, by, value, limit, margin, measure } = check
    if (hidden.has(figure) || (by !== undefined && hidden.has(by))) return []
    const shown = (one: number) => formatMeasured(roundTo(one, { step: 0.1, direction: 'nearest' }), measure)
    const name = by === undefined ? '' : ` (${figures.declarations[by]?.label ?? by})`
    const isBroken = margin < 0
    const way = bound === 'max' ? 'over' : 'below'
    return [
      {
        label,
        shown: shown(value),
        limit: `at ${bound === 'max' ? 'most' : 'least'} ${shown(limit)}${name}`,
        margin: isBroken ? `${way} by ${shown(-margin)}` : `${shown(margin)} left`,
        isBroken,
      },
    ]
  })
}
