/** Parts of the rules that some kinds bring to the grammar: by the names that the grammar gives to digits and letters. */

import { alternatives, optional, type RuleExpansion, rule, sequence } from '../grammarRules.ts'

export const DIGIT = rule('digit')
export const TEEN = rule('teen')
export const TENS = rule('tens')
export const LETTER = rule('letter')

/** Numbers of two digits said as one: "twenty five", "fifteen". */
export const PAIR = alternatives(TEEN, sequence(TENS, optional(DIGIT)))

/** Once, and again up to this many times in all. */
export const upTo = (most: number, one: RuleExpansion): RuleExpansion =>
  most === 1 ? one : sequence(one, optional(upTo(most - 1, one)))
