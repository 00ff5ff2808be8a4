/** What the benchmark of pace makes of a recording. */

import { expect, test } from 'vitest'
import { turnsIn } from '../browser/pace.ts'

const sound = (from: number, to: number) => ({ from, to })

test('times run from the last sound of an answer to the tick and to the voice, and from challenge to challenge', () => {
  const pilot = [sound(1_000, 1_400), sound(1_450, 1_900), sound(4_000, 4_800)]
  const app = [sound(2_300, 2_345), sound(2_400, 2_900), sound(3_000, 3_700), sound(5_300, 5_345), sound(5_410, 6_000)]
  expect(turnsIn({ pilot, app })).toEqual([
    { toTick: 400, toVoice: 500 },
    { toTick: 500, toVoice: 610, item: 5_410 - 2_400 - 800 },
  ])
})

test('an answer that is not taken has no tick behind it, and counts for nothing', () => {
  const pilot = [sound(1_000, 1_900), sound(4_000, 4_800), sound(7_000, 7_500)]
  const app = [sound(2_300, 2_345), sound(2_400, 3_700), sound(5_300, 6_500), sound(8_000, 8_045), sound(8_100, 8_900)]
  expect(turnsIn({ pilot, app })).toEqual([
    { toTick: 400, toVoice: 500 },
    { toTick: 500, toVoice: 600 },
  ])
})
