/** What a room is shown of an answer, a topic or a call of a start. Shapes only; `demonstrationView.ts` fills them in. */

import type { Judgement } from '../../kernel/response/model.ts'
import type { ReadWords } from './readWords.ts'
import type { ValueInForce } from './valuesInForce.ts'

export interface NearShown {
  readonly how: string
  readonly words: readonly string[]
  readonly changed: readonly number[]
  readonly judgement: Judgement | undefined
  readonly why: string
}

export interface DemonstrationView {
  readonly challenge: string
  readonly by: 'heard' | 'typed' | 'by key'
  readonly read: readonly ReadWords[]
  /** Parts of which nothing was said. */
  readonly missing: readonly string[]
  readonly judgement: Judgement
  /** Words of its own for the verdict: "Too early". */
  readonly verdict?: string
  readonly why: string
  readonly inForce: readonly ValueInForce[]
  readonly near: readonly NearShown[]
}
