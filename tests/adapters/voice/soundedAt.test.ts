import { describe, expect, it } from 'vitest'
import { soundedAt } from '../../../src/adapters/voice/soundedAt.ts'
import { createVirtualClock } from '../../../src/app/rehearsal/virtualClock.ts'

const clock = createVirtualClock()
/** An output that tells, of a moment so long ago, which of its own time came out then. */
const output = (contextTime: number, agoMs: number) => ({
  getOutputTimestamp: () => ({ contextTime, performanceTime: performance.now() - agoMs }),
})
/** From now to when the fifth second of the output is heard, ms. */
const fromNow = (context: Parameters<typeof soundedAt>[0]) => Math.round(soundedAt(context, 5, clock) - clock.now())

describe('what the output has played', () => {
  it('is heard as much later as the loudspeaker is behind it', () => {
    expect(fromNow(output(4.8, 0))).toBe(200)
    expect(fromNow(output(4.7, 100))).toBe(200)
  })

  it('was heard before, where the page is told late', () => {
    expect(fromNow(output(7, 0))).toBe(-2_000)
  })

  it('is heard now where the browser does not say, or tells a time that no loudspeaker is behind by', () => {
    expect(fromNow({ getOutputTimestamp: () => ({}) })).toBe(0)
    expect(fromNow(output(0.5, 0))).toBe(0)
  })
})
