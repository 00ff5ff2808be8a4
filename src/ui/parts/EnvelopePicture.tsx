/** The envelope picture: weight upwards, CG to the right (aft). Lines and points are told apart by form. */

import type { JSX } from 'preact'
import type { EnvelopePoint, EnvelopeView, WeightAndCg } from '../../app/envelopeView.ts'
import type { Envelope } from '../../kernel/figures/pack.ts'
import { showNumber } from '../../kernel/figures/showing.ts'
import { type Scale, scaleOver } from './scale.ts'

const WIDTH = 560
const HEIGHT = 440
const PLOT = { left: 80, right: WIDTH - 16, top: 12, bottom: HEIGHT - 48 }
/** One for each envelope: told apart without colour. */
const DASHES = ['', '10 5', '2 4', '12 4 2 4']

interface Place {
  readonly x: (cg: number) => number
  readonly y: (weight: number) => number
}

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
        <Grid place={place} cgs={cgs} weights={weights} />
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
    .map(({ label, weight, cg }) => `${label} ${showNumber(weight, 0)} at ${showNumber(cg, 1)}`)
  return `Envelopes of weight and centre of gravity: ${told.join(', ')}. The table below says the same.`
}

const pathOf = (line: readonly WeightAndCg[], { x, y }: Place) =>
  line.map((at) => `${x(at.cg)},${y(at.weight)}`).join(' ')

function outline({ limits }: Envelope, place: Place): string {
  const forward = limits.map(({ weight, forward: cg }) => ({ weight, cg }))
  const aft = limits.map(({ weight, aft: cg }) => ({ weight, cg })).toReversed()
  return pathOf([...forward, ...aft], place)
}

function Grid({ place, cgs, weights }: { readonly place: Place; readonly cgs: Scale; readonly weights: Scale }) {
  return (
    <g class="grid">
      {cgs.ticks.map((cg) => (
        <g key={cg}>
          <path d={`M${place.x(cg)} ${PLOT.top}V${PLOT.bottom}`} />
          <text x={place.x(cg)} y={PLOT.bottom + 18} text-anchor="middle">
            {showNumber(cg)}
          </text>
        </g>
      ))}
      {weights.ticks.map((weight) => (
        <g key={weight}>
          <path d={`M${PLOT.left} ${place.y(weight)}H${PLOT.right}`} />
          <text x={PLOT.left - 6} y={place.y(weight) + 4} text-anchor="end">
            {showNumber(weight)}
          </text>
        </g>
      ))}
    </g>
  )
}

const FORMS: readonly JSX.Element[] = [
  <circle key="circle" r="6" />,
  <path key="triangle" d="M0-8 7.5 5.5H-7.5z" />,
  <path key="square" d="M-6-6H6V6H-6z" />,
  <path key="diamond" d="M0-8 8 0 0 8-8 0z" />,
]

interface PointProps {
  readonly point: EnvelopePoint
  readonly place: Place
  readonly shape: number
}

function PointMark({ point, place, shape }: PointProps) {
  const { label, revision, cg, weight } = point
  const isNow = revision === 'draft'
  const [x, y] = [place.x(cg), place.y(weight)]
  const isLeft = x > (PLOT.left + PLOT.right) / 2
  return (
    <g class={isNow ? 'point' : 'point before'} transform={`translate(${x} ${y})`}>
      {FORMS[shape % FORMS.length]}
      {isNow && (
        <text x={isLeft ? -12 : 12} y="4" text-anchor={isLeft ? 'end' : 'start'}>
          {label}
        </text>
      )}
    </g>
  )
}
