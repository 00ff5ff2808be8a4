/** A button that does what a spoken phrase does. */

import type { Press } from '../../kernel/interpret/keyPress.ts'

export interface ViewButton {
  readonly label: string
  /** What to say instead of pressing; empty for the answer, which the pilot knows. */
  readonly phrase: string
  /** Is passed back as it is. */
  readonly press: Press
  /** What must come first, where it would be refused now. */
  readonly waitsFor?: string
  /** Passes the open item: shown one step further away. */
  readonly isPass?: true
}
