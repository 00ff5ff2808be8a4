/**
 * Lines written by hand, CHECK data: each group is one item, each line what was heard and what must come of it, as
 * `verdict`, `verdict:because`, `incomplete:lacks` or `command:name`. Made from the rules, not from the code.
 */

import type { Figure } from '../../src/kernel/kinds/kind.ts'
import { NUMBER_LINES } from './handNumbers.ts'
import { WORD_LINES } from './handWords.ts'
import type { TextInput } from './judgeText.ts'

export interface HandGroup {
  readonly item: Omit<TextInput, 'heard'>
  readonly lines: readonly (readonly [heard: string, expected: string])[]
}

/** An item with the one figure `<it>`. */
export function figureItem(challenge: string, figure: Figure, response = '<it> [set]'): HandGroup['item'] {
  return { challenge, response, figures: { it: figure } }
}

export const HAND_GROUPS: readonly HandGroup[] = [...NUMBER_LINES, ...WORD_LINES]
