/** The envelope picture: weight upwards, CG to the right (aft). Lines and points differ by shape, not only by colour. */

import type { EnvelopeView, WeightAndCg } from '../../../app/figures/envelopeView.ts'
import { formatNumber } from '../../../kernel/figures/format.ts'
import type { Envelope } from '../../../kernel/figures/pack.ts'
import { EnvelopeGrid } from './EnvelopeGrid.tsx'
import { PointMark } from './PointMark.tsx'
import { HEIGHT, PLOT, type Place, WIDTH } from './plot.ts'
import { scaleOver } from './scale.ts'

/** One for each envelope: they differ without colour. */
const DASHES = ['', '10 5', '2 4', '12 4 2 4']

export function EnvelopePicture({ view }: { readonly view: EnvelopeView }) {
  const { envelopes, points, burn, weightUnit, cgUnit } = view
  const limits = envelopes.flatMap((envelope) => envelope.limits)
  const cgs = scaleOver([...limits.flatMap(({ forward, aft }) => [forward, aft]), ...points.map(({ cg }) => cg)])
  const weights = scaleOver([...limits.map(({ weight }) => weight), ...points.map(({ weight }) => weight)])
  const place: Place = {
    x: (cg) => PLOT.left + cgs.share(cg) * (PLOT.right - PLOT.left),
    y: (weight) => PLOT.bottom - weights.share(weight) * (PLOT.bottom - PLOT.top),
  }
  return (
    <figure class="picture">
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={described(view)}>
        <EnvelopeGrid place={place} cgs={cgs} weights={weights} />
        {envelopes.map((envelope, number) => (
          <polygon
            key={envelope.name}
            class="limit"
            points={outline(envelope, place)}
            stroke-dasharray={DASHES[number % DASHES.length]}
          />
        ))}
        <polyline class="burn" points={pathOf(burn, place)} />
        {points.map((point) => (
          <PointMark
            key={`${point.label} ${point.revision}`}
            point={point}
            place={place}
            shape={envelopes.findIndex(({ label }) => label === point.label)}
          />
        ))}
        <text x={(PLOT.left + PLOT.right) / 2} y={HEIGHT - 8} text-anchor="middle">
          CG, {cgUnit}, aft to the right
        </text>
        <text transform={`translate(14 ${(PLOT.top + PLOT.bottom) / 2}) rotate(-90)`} text-anchor="middle">
          weight, {weightUnit}
        </text>
      </svg>
      <figcaption class="small">
        <ul class="row">
          {envelopes.map(({ name, label }, number) => (
            <li key={name} class="row">
              <svg width="34" height="10" aria-hidden="true">
                <path class="limit" d="M1 5h32" stroke-dasharray={DASHES[number % DASHES.length]} />
              </svg>
              {label} limits
            </li>
          ))}
          {burn.length > 0 && (
            <li class="row">
              <svg width="34" height="10" aria-hidden="true">
                <path class="burn" d="M1 5h32" />
              </svg>
              fuel burn
            </li>
          )}
          {points.some(({ revision }) => revision === 'inForce') && <li>hollow: the revision in force</li>}
        </ul>
      </figcaption>
    </figure>
  )
}

function described({ points }: EnvelopeView): string {
  if (points.length === 0) return 'Envelopes of weight and centre of gravity, without points'
  const told = points
    .filter(({ revision }) => revision === 'draft')
    .map(({ label, weight, cg }) => `${label} ${formatNumber(weight, 0)} at ${formatNumber(cg, 1)}`)
  return `Envelopes of weight and centre of gravity: ${told.join(', ')}. The table below says the same.`
}

const pathOf = (line: readonly WeightAndCg[], { x, y }: Place) =>
  line.map((at) => `${x(at.cg)},${y(at.weight)}`).join(' ')

function outline({ limits }: Envelope, place: Place): string {
  const forward = limits.map(({ weight, forward: cg }) => ({ weight, cg }))
  const aft = limits.map(({ weight, aft: cg }) => ({ weight, cg })).toReversed()
  return pathOf([...forward, ...aft], place)
}
