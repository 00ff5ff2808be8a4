/** Words with which a pilot takes back what was said just before. */

import type { Token } from '../numbers/tokens.ts'
import { isAt } from './placePlan.ts'

const CORRECTIONS: readonly (readonly string[])[] = [
  ['correction'],
  ['no', 'wait'],
  ['wait'],
  ['no'],
  ['sorry'],
  ['scratch', 'that'],
  ['make', 'that'],
  ['i', 'mean'],
]

/** End of the words of correction that begin at a token; `at` where none do. */
export function correctionAt(tokens: readonly Token[], at: number): number {
  const found = CORRECTIONS.find((words) => isAt(words, tokens, at))
  return at + (found?.length ?? 0)
}
