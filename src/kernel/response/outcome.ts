/** What came of comparing what was said for a figure. */

import type { Value } from '../kinds/kind.ts'
import type { Lack } from '../kinds/reading.ts'
import type { Because } from './model.ts'

export type Outcome =
  | { readonly is: 'right'; readonly read: Value; readonly form: boolean }
  | { readonly is: 'wrong'; readonly because: Because; readonly read?: Value }
  | { readonly is: 'lacking'; readonly lacks: Lack; readonly read?: Value }
  | { readonly is: 'implausible'; readonly read: Value }
  | { readonly is: 'doubtful'; readonly because: Because }
