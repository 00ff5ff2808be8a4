/** The point of what was said in a dispute, as texts to be read: that of what was heard, and of what else it may have been. */

import { textOf, transcriptOf } from '../numbers/tokens.ts'
import type { Hypotheses } from '../response/hypotheses.ts'
import { type Point, pointOf } from './disputed.ts'
import type { Utterance } from './utterance.ts'

export interface PointIn {
  readonly lead: Point['lead']
  readonly rest: Hypotheses
}

export function pointIn({ said: { heard, alternatives } }: Utterance): PointIn {
  const own = pointOf(textOf(heard))
  const rest = alternatives?.map((one) => ({ ...one, ...transcriptOf(pointOf(textOf(one)).text) }))
  return { lead: own.lead, rest: { heard: transcriptOf(own.text), ...(rest && { alternatives: rest }) } }
}
