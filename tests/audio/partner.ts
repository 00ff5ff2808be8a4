/** Objections to a partner who errs, in the browser test of it; check data, nothing is tuned on it. */

import { answer } from './departure.ts'

export const NOT_116 = answer('partner-v1', 'negative one two six')
export const CHECK_THAT = answer('partner-check', 'check that', 'kal')

export const OBJECTIONS = [NOT_116, CHECK_THAT]
