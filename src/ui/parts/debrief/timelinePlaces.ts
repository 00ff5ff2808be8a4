/** Where the things of a timeline stand: across by their time, down by their lane. */

import { LANES, type Lane, type TimelineEntry } from '../../../kernel/run/debrief/timelineEntry.ts'

export const LANE_HEIGHT = 24
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
  /** Where time was cut out, ms from the start of the run. */
  readonly cuts: readonly number[]
}

const MINUTE = 60_000
const STEPS = [0.5, 1, 2, 5, 10, 20, 30, 60].map((minutes) => minutes * MINUTE)
const MOST_TICKS = 12

/** Where nothing happens for longer than this, as when the page was left for a night, the time between is cut out. */
const LONGEST_GAP = 2 * MINUTE

/** Lanes with nothing in them are left out. */
export function placesOf(entries: readonly TimelineEntry[]): TimelinePlaces {
  const lanes = LANES.filter((lane) => entries.some((entry) => entry.lane === lane))
  const all = entries.flatMap(({ t, endT, answeredAt = t }) => [t, answeredAt, endT])
  const times = [...new Set(all)].sort((one, other) => one - other)
  const gaps = times.slice(1).map((to, index) => {
    const from = times[index] ?? to
    return { from, to, isCut: to - from > LONGEST_GAP }
  })
  const lengthOf = ({ from, to }: (typeof gaps)[number]) => Math.min(LONGEST_GAP, to - from)
  const whole = Math.max(
    1,
    gaps.reduce((sum, gap) => sum + lengthOf(gap), 0),
  )
  // The marks at both ends are whole.
  const x = (t: number) => {
    let before = 0
    for (const gap of gaps) {
      if (t < gap.to) {
        before += (lengthOf(gap) * Math.max(0, t - gap.from)) / (gap.to - gap.from)
        break
      }
      before += lengthOf(gap)
    }
    return 2 + (96 * before) / whole
  }
  const step = STEPS.find((one) => whole / one <= MOST_TICKS) ?? 60 * MINUTE
  const ticks = gaps.flatMap(({ from, to, isCut }) => {
    const first = Math.ceil(from / step) * step
    return isCut || first >= to ? [] : [...Array(Math.ceil((to - first) / step)).keys()].map((n) => first + n * step)
  })
  return {
    ...{ lanes, x, ticks },
    height: lanes.length * LANE_HEIGHT + AXIS_HEIGHT,
    y: (lane) => (lanes.indexOf(lane) + 0.5) * LANE_HEIGHT,
    cuts: gaps.filter(({ isCut }) => isCut).map(({ from, to }) => (from + to) / 2),
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
