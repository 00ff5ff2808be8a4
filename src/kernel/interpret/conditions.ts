/** Where an utterance is said, and how sure the ear is of it: what rules go by. */

import { findItem } from '../pack/place.ts'
import { isForValue } from '../run/core/ownQuestion.ts'
import { itemState } from '../run/core/progress.ts'
import type { Floor, Question } from '../run/core/state.ts'
import { isUnderWay, talkAt } from '../run/talk/talk.ts'
import { runningWatch } from '../run/watch/watchTiming.ts'
import type { Utterance } from './utterance.ts'

export type Applies = (utterance: Utterance) => boolean

export const all =
  (...conditions: readonly Applies[]): Applies =>
  (utterance) =>
    conditions.every((applies) => applies(utterance))
export const not =
  (condition: Applies): Applies =>
  (utterance) =>
    !condition(utterance)

export const isNothing: Applies = ({ heard }) => heard.text.trim() === '' || heard.doubt === 'otherSpeech'
export const isSure: Applies = ({ heard }) => heard.doubt === undefined
/** A stop too many costs a word, one too few an aircraft: only what fits other words better is none. */
export const isSureEnoughToStop: Applies = ({ heard }) => heard.doubt !== 'unsure' && heard.doubt !== 'otherSpeech'
export const isCut: Applies = ({ heard }) => heard.doubt === 'onsetCut'
export const isTyped: Applies = ({ heard }) => heard.by === 'typed'
export const isCorrection: Applies = ({ opening }) => opening === 'correction'
export const isObjection: Applies = ({ opening }) => opening !== undefined && opening !== 'sayAgain'
export const hasRest: Applies = ({ rest }) => rest.heard.tokens.length > 0

export const at =
  (place: Floor['at']): Applies =>
  ({ state }) =>
    state.floor.at === place
export const inListOrTalk: Applies = ({ state: { floor } }) =>
  floor.at === 'item' || floor.at === 'line' || floor.at === 'exchange'
export const asks =
  (about: Question['about']): Applies =>
  ({ state }) =>
    state.question?.about === about
export const asksForValue: Applies = ({ state }) => state.question !== undefined && isForValue(state.question)
export const isAsking: Applies = ({ state }) => state.question !== undefined
export const isStandingBy: Applies = ({ state }) => state.standingBy
/** For an answer to its own question, or for "continue": little else is meant for Otherseat then. */
export const isWaiting: Applies = ({ state }) => state.standingBy || state.question !== undefined
export const isStarting: Applies = ({ pack, state }) => runningWatch(pack, state) !== undefined

/** Nothing was said here yet that "correction" could be about: it means what was closed before. */
export const isNothingBegun: Applies = ({ pack, state }) => {
  const { floor } = state
  if (floor.at === 'item') {
    const { partsSoFar, misses, sayAgains } = itemState(state, findItem(pack, floor.item).item.id)
    return state.closed.length > 0 && partsSoFar.length === 0 && misses === 0 && sayAgains === 0
  }
  const talk = talkAt(pack, floor)
  return talk !== undefined && !isUnderWay(talk, state)
}
