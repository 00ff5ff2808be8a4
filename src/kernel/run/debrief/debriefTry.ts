/** One try at an item or a transmission, as the debrief has it. */

import { isMiss, type Judgement } from '../../response/model.ts'
import type { By, RunEvent } from '../core/events.ts'

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
  /** Right, and refused: what had to come first. */
  readonly tooEarly?: string
}

export interface DebriefTransmission extends DebriefTry {
  readonly part: 'call' | 'readBack'
}

export function answerOf(event: RunEvent<'answered'>): DebriefTry {
  const { t, evidence, judgement, challengeRevision, revision } = event
  const early = evidence.early && { early: true }
  return { t, text: evidence.text, by: evidence.by, judgement, challengeRevision, revision, ...early }
}

export function transmissionOf(event: RunEvent<'transmitted'>): DebriefTransmission {
  const { t, evidence, judgement, revision, part } = event
  return { t, text: evidence.text, by: evidence.by, judgement, challengeRevision: revision, revision, part }
}

export const missesIn = (tries: readonly DebriefTry[]): number =>
  tries.filter(({ judgement }) => isMiss(judgement)).length

/** "Say again" is the ear's. */
export const sayAgainsIn = (tries: readonly DebriefTry[]): number =>
  tries.filter(({ judgement: { verdict } }) => verdict === 'sayAgain').length

/** The words of an event as a field of what tells it; a key has none. */
export const saying = (text: string): { readonly said?: string } => (text === '' ? {} : { said: text })

/** A second breath comes sooner than what is said after the station has asked. */
const BREATH_MS = 6_000

/** What was said next, at once, was right: nothing was lost. */
export function isGoneOn(one: DebriefTry, tries: readonly DebriefTry[]): boolean {
  const next = tries[tries.indexOf(one) + 1]
  if (next === undefined || next.t - one.t > BREATH_MS) return false
  return next.judgement.verdict !== 'negative' && next.judgement.verdict !== 'sayAgain'
}
