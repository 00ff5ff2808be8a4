/** "Yes" and "no", where a question of a list may be answered so. */

import type { Transcript } from '../numbers/tokens.ts'

export const YES = ['yes', 'affirm', 'affirmative'] as const
export const NO = ['no', 'negative'] as const

/** Undefined where it is neither, or more than that. */
export function yesOrNo({ tokens }: Transcript): 'yes' | 'no' | undefined {
  const [only, ...more] = tokens
  if (!only || more.length > 0) return undefined
  if (YES.some((word) => word === only.text)) return 'yes'
  return NO.some((word) => word === only.text) ? 'no' : undefined
}
