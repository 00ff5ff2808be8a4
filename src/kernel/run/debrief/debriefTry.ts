/** One try at an item or a transmission, as the debrief has it. */

import { isMiss, type Judgement } from '../../response/model.ts'
import { acceptedAs } from '../core/accepted.ts'
import { BREATH_MS, isGoneOn as isNextGoneOn } from '../core/again.ts'
import type { By, RunEvent } from '../core/events.ts'
import { onsetOf } from '../core/onset.ts'
import type { RunState } from '../core/state.ts'

export interface DebriefTry {
  /** Number of its event. */
  readonly seq: number
  /** Milliseconds from the start of the run: of the verdict, and of the first word where that is known. */
  readonly t: number
  readonly onset?: number
  readonly text: string
  readonly by: By
  readonly judgement: Judgement
  /** Revision of the figures at the challenge, and at the verdict, as the pilot counts them. */
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

export function answerOf(state: RunState, event: RunEvent<'answered'>): DebriefTry {
  const { seq, t, evidence, judgement } = event
  const challengeRevision = acceptedAs(state, event.challengeRevision)
  const revision = acceptedAs(state, event.revision)
  const early = evidence.early && { early: true }
  const onset = onsetOf(state, event)
  return { seq, t, onset, text: evidence.text, by: evidence.by, judgement, challengeRevision, revision, ...early }
}

export function transmissionOf(state: RunState, event: RunEvent<'transmitted'>): DebriefTransmission {
  const { seq, t, evidence, judgement, part } = event
  const revision = acceptedAs(state, event.revision)
  const onset = onsetOf(state, event)
  return { seq, t, onset, text: evidence.text, by: evidence.by, judgement, challengeRevision: revision, revision, part }
}

/** What a controller said wrongly, put right: all of it that was said is meant, and nothing of it is missing. */
export function asObjection(one: DebriefTransmission): DebriefTransmission {
  const parts = one.judgement.parts.filter(({ state }) => state === 'ok')
  return { ...one, judgement: { verdict: 'correct', parts } }
}

/** Not right: wrong or not whole; or right, and refused since something had to come first. */
const isMissed = ({ judgement, tooEarly }: DebriefTry): boolean => isMiss(judgement) || tooEarly !== undefined

export const missesIn = (tries: readonly DebriefTry[]): number => tries.filter(isMissed).length

/** The same of calls and read-backs, where the rest of what was not whole may come in a second breath. */
export const missesInTurn = (tries: readonly DebriefTry[]): number =>
  missesIn(tries.filter((one) => !isGoneOn(one, tries)))

/** "Say again" is the ear's. */
export const sayAgainsIn = (tries: readonly DebriefTry[]): number =>
  tries.filter(({ judgement: { verdict } }) => verdict === 'sayAgain').length

/** The words of an event as a field of what tells it; a key has none. */
export const saying = (text: string): { readonly said?: string } => (text === '' ? {} : { said: text })

/** Half of it was said, and what came next, at once, was right: nothing was lost. */
export function isGoneOn<T extends Pick<DebriefTry, 't' | 'onset' | 'judgement'>>(
  one: T,
  tries: readonly T[],
): boolean {
  const next = tries[tries.indexOf(one) + 1]
  if (next === undefined || (next.onset ?? next.t) - one.t > BREATH_MS) return false
  return isNextGoneOn(one.judgement, next.judgement)
}
