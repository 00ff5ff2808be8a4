/** One thing of a run in the picture of its time. */

import type { TimelineEntry } from '../../../kernel/run/debrief/timelineEntry.ts'
import { markAt, type TimelinePlaces } from './timelinePlaces.ts'
import { SHAPES } from './timelineShapes.tsx'

interface Props {
  readonly entry: TimelineEntry
  readonly places: TimelinePlaces
  readonly isShown?: boolean
}

const HALF = 8

export function TimelineMark({ entry, places, isShown = false }: Props) {
  const { lane, t, endT, label, limits } = entry
  const isSpan = lane === 'phase' || lane === 'list' || lane === 'break' || (lane === 'watch' && !limits)
  return isSpan ? (
    <Span entry={entry} places={places} label={lane === 'watch' ? '' : label} />
  ) : (
    <>
      {endT > t && <Wait places={places} entry={entry} />}
      {limits && (isShown || entry.went === 'missed') && <Limits entry={entry} places={places} />}
      <svg x={`${places.x(markAt(entry))}%`} y={places.y(lane)} overflow="visible" aria-hidden="true">
        {SHAPES[entry.went]}
      </svg>
    </>
  )
}

/** Its name as far as it has room. */
function Span({ entry, places: { x, y }, label }: Props & { readonly label: string }) {
  const { lane, t, endT } = entry
  const box = { x: `${x(t)}%`, y: y(lane) - HALF - 2, width: `${Math.max(0.3, x(endT) - x(t))}%`, height: 2 * HALF + 4 }
  return (
    <svg {...box} aria-hidden="true">
      <rect class={`span ${lane}`} width="100%" height="100%" />
      <text x="5" y="15">
        {label}
      </text>
    </svg>
  )
}

/** From when it was put to when the run went on from it. */
function Wait({ entry: { lane, t, endT }, places: { x, y } }: Props) {
  return <line class="wait" x1={`${x(t)}%`} x2={`${x(endT)}%`} y1={y(lane)} y2={y(lane)} />
}

/** A foot at the soonest, and one at the latest. */
function Limits({ entry: { lane, limits = {} }, places: { x, y } }: Props) {
  const foot = (t: number | undefined, toward: 1 | -1) =>
    t !== undefined && (
      <svg x={`${x(t)}%`} y={y(lane)} overflow="visible" aria-hidden="true">
        <path class="limit-foot" d={`M${4 * toward} ${-HALF}H0V${HALF}H${4 * toward}`} />
      </svg>
    )
  return (
    <>
      {foot(limits.soonestAt, 1)}
      {foot(limits.dueAt, -1)}
    </>
  )
}
