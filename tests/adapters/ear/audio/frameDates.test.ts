/** The ear opens by the clock: a frame that is dated too early would be taken for the app's own voice. */

import { describe, expect, it } from 'vitest'
import { FRAME_MS } from '../../../../src/adapters/ear/audio/frame.ts'
import { FrameDates } from '../../../../src/adapters/ear/audio/frameDates.ts'

interface How {
  readonly slower?: number
  readonly late?: (seq: number) => number
  readonly begin?: number
}

/** Frames of a sound card whose clock runs so much slower than the machine's, each with so many ms on its way. */
function datesOf(count: number, how: How = {}) {
  const { slower = 0, late = () => 0, begin = 0 } = how
  const dates = new FrameDates()
  return Array.from({ length: count }, (_, seq) => {
    const at = begin + seq * FRAME_MS * (1 + slower)
    return { at, off: dates.date(seq, at + FRAME_MS * (1 + slower) + late(seq)) - at }
  })
}
const largest = (offs: readonly { off: number }[]) => offs.reduce((most, { off }) => Math.max(most, Math.abs(off)), 0)

describe('a frame is dated', () => {
  it('to the moment at which it was captured, though it comes late', () => {
    const dates = datesOf(500, { begin: 1_000, late: (seq) => (seq % 5 === 0 ? 0 : (seq * 37) % 200) })
    expect(largest(dates)).toBe(0)
  })

  it('no later than it came, whatever came before', () => {
    const dates = datesOf(10, { late: (seq) => (seq < 5 ? 90 : 0) })
    expect(dates.map(({ off }) => off)).toEqual([90, 90, 90, 90, 90, 0, 0, 0, 0, 0])
  })

  // 100 parts in a million: from memory, what crystals of cheap sound devices are off at most.
  it.each([0.0001, -0.0001])('after two hours as at first, though the clocks part by %d', (slower) => {
    const dates = datesOf((2 * 3_600_000) / FRAME_MS, { slower })
    expect(largest(dates)).toBeLessThan(1)
  })

  it('right again two seconds after sound was lost', () => {
    const dates = new FrameDates()
    const lostMs = 100
    const off = (seq: number) => {
      const at = seq * FRAME_MS + (seq < 200 ? 0 : lostMs)
      return dates.date(seq, at + FRAME_MS) - at
    }
    const offs = Array.from({ length: 200 + 66 + 34 }, (_, seq) => off(seq))
    expect(offs[199]).toBe(0)
    expect(offs[210]).toBe(-lostMs)
    expect(offs.slice(-34)).toEqual(Array.from({ length: 34 }, () => 0))
  })

  it('right at once where the stream had stopped for a while', () => {
    const dates = datesOf(20)
    expect(largest(dates)).toBe(0)
    const stopped = new FrameDates()
    stopped.date(0, FRAME_MS)
    expect(stopped.date(1, 10_000)).toBe(10_000 - FRAME_MS)
  })
})
