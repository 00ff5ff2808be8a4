/** What the pilot says on the radio and between the seats in the browser test; check data, nothing is tuned on it. */

import { answer, type SpokenAnswer } from './departure.ts'

/** The clearance in three breaths; the code is wrong at first. */
export const CLEARANCE: readonly SpokenAnswer[] = [
  answer('talk-limit', 'cleared to willow lake lantern two alfa departure'),
  answer('talk-level', 'runway two four climb to altitude five thousand feet'),
  answer('talk-wrong-code', 'departure frequency one two four decimal six seven five squawk two six one four'),
]
export const CODE = answer('talk-code', 'squawk two six one three', 'kal')

export const WRONG_ORDER = answer('talk-wrong-flap', 'flap nineteen')
export const NEGATIVE = answer('talk-negative', 'negative', 'kal')
export const ORDER = answer('talk-flap', 'flap twelve')

/** The taxi clearance, first without its hold short. */
export const TAXI: readonly SpokenAnswer[] = [
  answer('talk-taxi', 'taxi to holding point charlie three runway two four via bravo echo charlie'),
  answer('talk-altimeter', 'q n h one zero one zero'),
]
export const HOLD_SHORT = answer('talk-hold-short', 'hold short of runway three three', 'kal')

export const TALK_ANSWERS = [...CLEARANCE, CODE, WRONG_ORDER, NEGATIVE, ORDER, ...TAXI, HOLD_SHORT]
