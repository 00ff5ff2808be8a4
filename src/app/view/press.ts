/** A button that does what a spoken phrase does. */

import type { Press } from '../../kernel/interpret/keyPress.ts'

export interface ViewButton {
  readonly label: string
  /** What to say instead of pressing. */
  readonly phrase: string
  /** Is passed back as it is. */
  readonly press: Press
  /** Passes the open item: shown one step further away. */
  readonly isPass?: true
}
