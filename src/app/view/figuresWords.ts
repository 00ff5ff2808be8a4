/** Which figures are in force, in words that no edition of a paper has: a revision counts changes of the figures alone. */

import type { Status } from '../../kernel/figures/model.ts'

/** "final figures, revision 3"; the first is just that. */
export function figuresWords(status: Status, revision: number): string {
  return revision > 1 ? `${status} figures, revision ${revision}` : `${status} figures`
}
