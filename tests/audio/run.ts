/** Words of command and a call of a start gone wrong, in the browser test of a run; check data, nothing is tuned on it. */

import { answer, type SpokenAnswer } from './departure.ts'

export const STAND_BY = answer('run-stand-by', 'stand by')
export const CONTINUE = answer('run-continue', 'continue', 'kal')
export const GO_BACK = answer('run-go-back', 'go back one')
export const FROM_THE_TOP = answer('run-from-the-top', 'from the top', 'kal')
export const LEAVE_OPEN = answer('run-leave-open', 'leave it open')
export const NO_LIGHT_UP = answer('run-no-light-up', 'no light up', 'kal')

export const RUN_ANSWERS: readonly SpokenAnswer[] = [
  ...[STAND_BY, CONTINUE, GO_BACK, FROM_THE_TOP, LEAVE_OPEN, NO_LIGHT_UP],
]
