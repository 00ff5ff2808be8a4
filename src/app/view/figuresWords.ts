/** Which figures are in force, in words that no edition of a paper has: a revision counts changes of the figures alone. */

import type { Status } from '../../kernel/figures/model.ts'

/** "final figures, changed twice (revision 3)". */
export function figuresWords(status: Status, revision: number): string {
  return revision > 1 ? `${status} figures, changed ${times(revision - 1)} (revision ${revision})` : `${status} figures`
}

/** "once", "twice", "3 times". */
export const times = (count: number): string => ['never', 'once', 'twice'][count] ?? `${count} times`
