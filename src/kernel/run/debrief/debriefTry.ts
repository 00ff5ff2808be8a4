/** One try at an item or a transmission, as the debrief tells it. */

import type { Judgement } from '../../response/model.ts'
import type { By } from '../core/events.ts'

export interface DebriefTry {
  /** Milliseconds from the start of the run. */
  readonly t: number
  readonly text: string
  readonly by: By
  readonly judgement: Judgement
  /** Revision of the figures at the challenge, and at the verdict. */
  readonly challengeRevision: number
  readonly revision: number
  /** It began before the challenge had been said to its end. */
  readonly early?: boolean
}
