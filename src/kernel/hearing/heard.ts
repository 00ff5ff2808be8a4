/** What an ear reports of one utterance, spoken or typed. */

import type { Alternative } from '../response/model.ts'

export interface HeardWord {
  readonly text: string
  /** Milliseconds from the start of the utterance. */
  readonly beginMs: number
  readonly endMs: number
}

/** One utterance. */
export interface Heard {
  /** Number of the listening turn that it belongs to. */
  readonly listenId: number
  readonly text: string
  readonly words?: readonly HeardWord[]
  readonly score?: number
  readonly alternatives?: readonly Alternative[]
  /** Why the ear itself does not stand by what it heard; such an utterance is never judged correct. */
  readonly doubt?: 'unsure' | 'faint' | 'clipped' | 'onsetCut' | 'otherSpeech'
  /** Clock time of its first voiced sample, or of the first key. */
  readonly beganAt: number
  readonly endedAt: number
  readonly by: 'voice' | 'typed'
  /** It began before the challenge had been said to its end. */
  readonly early?: boolean
  /** Clock time at which what was said to the pilot before had ended. */
  readonly saidUntil?: number
}
