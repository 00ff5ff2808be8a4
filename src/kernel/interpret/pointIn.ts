/** The point of what was said in a dispute, as texts to be read: that of what was heard, and of what else it may have been. */

import { textOf, transcriptOf } from '../numbers/tokens.ts'
import type { Hypotheses } from '../response/hypotheses.ts'
import { leadIn, type Point, pointOf } from './disputed.ts'
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

/**
 * The same, and what stands at its end behind words that nobody foresaw, the longest first: "that was two thousand feet,
 * should be three thousand feet". Only where those words dispute or tell something.
 */
export function pointsIn(utterance: Utterance): PointIn[] {
  const whole = pointIn(utterance)
  const words = wordsOf(whole.rest.heard.text)
  const ends = words.slice(1).flatMap((_, index): PointIn[] => {
    const before = words.slice(0, index + 1).join(' ')
    const lead = whole.lead === 'against' ? whole.lead : (leadIn(before) ?? whole.lead)
    if (lead === undefined) return []
    const end = (text: string) =>
      transcriptOf(
        wordsOf(text)
          .slice(index + 1 - words.length)
          .join(' '),
      )
    const { alternatives } = whole.rest
    const others = alternatives?.map((one) => ({ ...one, ...end(one.text) }))
    return [{ lead, rest: { heard: end(whole.rest.heard.text), ...(others && { alternatives: others }) } }]
  })
  return [whole, ...ends]
}

const wordsOf = (text: string): string[] => text.split(/\s+/).filter((word) => word !== '')
