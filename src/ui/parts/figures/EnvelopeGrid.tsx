/** Lines and numbers behind the envelope picture. */

import { formatNumber } from '../../../kernel/figures/format.ts'
import { PLOT, type Place } from './plot.ts'
import type { Scale } from './scale.ts'

export function EnvelopeGrid({
  place,
  cgs,
  weights,
}: {
  readonly place: Place
  readonly cgs: Scale
  readonly weights: Scale
}) {
  return (
    <g class="grid">
      {cgs.ticks.map((cg) => (
        <g key={cg}>
          <path d={`M${place.x(cg)} ${PLOT.top}V${PLOT.bottom}`} />
          <text x={place.x(cg)} y={PLOT.bottom + 18} text-anchor="middle">
            {formatNumber(cg)}
          </text>
        </g>
      ))}
      {weights.ticks.map((weight) => (
        <g key={weight}>
          <path d={`M${PLOT.left} ${place.y(weight)}H${PLOT.right}`} />
          <text x={PLOT.left - 6} y={place.y(weight) + 4} text-anchor="end">
            {formatNumber(weight)}
          </text>
        </g>
      ))}
    </g>
  )
}
