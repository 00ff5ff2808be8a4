/** One point of the envelope picture: its shape stands for the envelope, its filling for the revision. */

import type { JSX } from 'preact'
import type { EnvelopePoint } from '../../../app/figures/envelopeView.ts'
import { PLOT, type Place } from './plot.ts'

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

export function PointMark({ point, place, shape }: PointProps) {
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
