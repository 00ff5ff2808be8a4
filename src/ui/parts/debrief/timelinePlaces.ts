/** Where the things of a timeline stand: across by their time, down by their lane. */

import { LANES, type Lane, type TimelineEntry } from '../../../kernel/run/debrief/timeline.ts'

export const LANE_HEIGHT = 28
export const AXIS_HEIGHT = 20

export interface TimelinePlaces {
  readonly lanes: readonly Lane[]
  readonly height: number
  /** The middle of a lane, px. */
  readonly y: (lane: Lane) => number
  /** 0 to 100. */
  readonly x: (t: number) => number
  /** Round times along the axis, ms from the start of the run. */
  readonly ticks: readonly number[]
}

const MINUTE = 60_000
const STEPS = [0.5, 1, 2, 5, 10, 20, 30, 60].map((minutes) => minutes * MINUTE)
const MOST_TICKS = 12

/** Lanes with nothing in them are left out. */
export function placesOf(entries: readonly TimelineEntry[]): TimelinePlaces {
  const began = Math.min(...entries.map(({ t }) => t))
  const ended = Math.max(...entries.map(({ endT }) => endT), began + 1)
  const lanes = LANES.filter((lane) => entries.some((entry) => entry.lane === lane))
  const step = STEPS.find((one) => (ended - began) / one <= MOST_TICKS) ?? 120 * MINUTE
  const first = Math.ceil(began / step) * step
  const count = Math.max(0, Math.floor((ended - first) / step) + 1)
  return {
    lanes,
    height: lanes.length * LANE_HEIGHT + AXIS_HEIGHT,
    y: (lane) => (lanes.indexOf(lane) + 0.5) * LANE_HEIGHT,
    // The marks at both ends are whole.
    x: (t) => 1 + (98 * (t - began)) / (ended - began),
    ticks: Array.from({ length: count }, (_, index) => first + index * step),
  }
}

/** A mark has its own place; a span is wherever it lasts. */
const isPoint = ({ lane }: TimelineEntry) =>
  lane === 'item' || lane === 'talk' || lane === 'figures' || lane === 'watch'

export const markAt = ({ t, answeredAt }: TimelineEntry) => answeredAt ?? t

/** What is nearest in a lane; a call before the start that it lies in. */
export function nearest(
  entries: readonly TimelineEntry[],
  { lanes, x }: TimelinePlaces,
  at: { readonly x: number; readonly y: number },
): number | undefined {
  const lane = lanes[Math.max(0, Math.min(lanes.length - 1, Math.floor(at.y / LANE_HEIGHT)))]
  const distance = (entry: TimelineEntry): number => {
    const [from, to] = [x(entry.t), x(entry.endT)]
    if (isPoint(entry)) return Math.abs(x(markAt(entry)) - at.x)
    return at.x < from ? from - at.x : at.x > to ? at.x - to : 0
  }
  let found: number | undefined
  for (const [index, entry] of entries.entries()) {
    if (entry.lane !== lane) continue
    const best = found === undefined ? undefined : entries[found]
    if (best === undefined || distance(entry) <= distance(best)) found = index
  }
  return found
}
