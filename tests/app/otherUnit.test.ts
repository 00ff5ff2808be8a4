/** A value in another unit: which unit was said, and which is wanted, in the run and behind it. */

import { describe, expect, it } from 'vitest'
import { marramLines, twinLines } from '../flight/lines.ts'
import { flown, upTo } from './flown.ts'

const JET = upTo(marramLines('icao', 'push'), 'load figures list')
const TWIN = upTo(twinLines('icao'), 'takeoff figures list')

describe('a weight in another unit', () => {
  it.each([
    [
      'marram',
      JET,
      '24620 lb',
      'twenty four thousand six hundred twenty pounds. Say it in kilos.',
      'Zero fuel weight: 24620 kg was right; it was said in pounds.',
    ],
    [
      'marram',
      JET,
      'five four two seven seven pounds',
      'seven pounds. Say it in kilos.',
      'Zero fuel weight: 24620 kg was right; it was said in pounds.',
    ],
    [
      'pair',
      TWIN,
      'four six niner eight kilos',
      'ninety eight kilos. Say it in pounds.',
      'Takeoff weight: 4698 lb was right; it was said in kilos.',
    ],
  ] as const)('in the %s: "%s"', async (name, before, said, heard, why) => {
    const { answers, debrief } = await flown(name, before, said)
    expect(answers[0]).toContain(heard)
    expect(debrief.foremost[0]?.why).toBe(why)
  })

  it('without its unit is told to look like the value in the other one', async () => {
    const { debrief } = await flown('marram', JET, 'five four two seven seven')
    expect(debrief.foremost[0]?.why).toMatch(/^Zero fuel weight: 24620 kg was right; it looks like the value in lb/)
  })
})
