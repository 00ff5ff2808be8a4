/**
 * The order in which an utterance is looked at. A rule says where it applies and what it makes of the utterance there;
 * the first that makes something of it decides.
 */

import { findItem } from '../pack/place.ts'
import type { EventBody } from '../run/core/events.ts'
import { itemState } from '../run/core/progress.ts'
import type { Floor, Question } from '../run/core/state.ts'
import { isUnderWay, talkAt } from '../run/talk/talk.ts'
import { runningWatch } from '../run/watch/watchTiming.ts'
import { clearance, flowCall, situation } from './announcements.ts'
import { answer, cutAnswer } from './answer.ts'
import { command, correction, passReason, sayAgain } from './command.ts'
import { crossCheck, readOffSource } from './crossCheck.ts'
import { isLate, lateWords } from './late.ts'
import { secondThoughts } from './readBack.ts'
import { awaited, otherOrder, talk } from './talk.ts'
import { overheard, type Utterance } from './utterance.ts'
import { watchCall } from './watchCall.ts'

export interface Rule {
  /** What it takes the utterance for. */
  readonly name: string
  readonly applies: (utterance: Utterance) => boolean
  /** Undefined where the utterance is none. */
  readonly read: (utterance: Utterance) => EventBody | undefined
}
type Applies = Rule['applies']

const all =
  (...conditions: readonly Applies[]): Applies =>
  (utterance) =>
    conditions.every((applies) => applies(utterance))
const not =
  (condition: Applies): Applies =>
  (utterance) =>
    !condition(utterance)

const isNothing: Applies = ({ heard }) => heard.text.trim() === '' || heard.doubt === 'otherSpeech'
const isSure: Applies = ({ heard }) => heard.doubt === undefined
const isCut: Applies = ({ heard }) => heard.doubt === 'onsetCut'
const isTyped: Applies = ({ heard }) => heard.by === 'typed'
const isCorrection: Applies = ({ opening }) => opening === 'correction'
const isObjection: Applies = ({ opening }) => opening !== undefined && opening !== 'sayAgain'
const hasRest: Applies = ({ rest }) => rest.heard.tokens.length > 0

const at =
  (place: Floor['at']): Applies =>
  ({ state }) =>
    state.floor.at === place
const asks =
  (about: Question['about']): Applies =>
  ({ state }) =>
    state.question?.about === about
const isAsking: Applies = ({ state }) => state.question !== undefined
const isStandingBy: Applies = ({ state }) => state.standingBy
/** For an answer to its own question, or for "continue": little else is meant for Otherseat then. */
const isWaiting: Applies = ({ state }) => state.standingBy || state.question !== undefined
const isStarting: Applies = ({ pack, state }) => runningWatch(pack, state) !== undefined

/** Nothing was said here yet that "correction" could be about: it means what was closed before. */
const isNothingBegun: Applies = ({ pack, state }) => {
  const { floor } = state
  if (floor.at === 'item') {
    const { partsSoFar, misses, sayAgains } = itemState(state, findItem(pack, floor.item).item.id)
    return state.closed.length > 0 && partsSoFar.length === 0 && misses === 0 && sayAgains === 0
  }
  const talk = talkAt(pack, floor)
  return talk !== undefined && !isUnderWay(talk, state)
}

export const RULES: readonly Rule[] = [
  { name: 'nothing, or other speech', applies: isNothing, read: overheard },
  { name: 'words of an earlier turn', applies: isLate, read: lateWords },
  // An engine that is being started is heard whatever else is open.
  { name: 'a call of the start under way', applies: all(isSure, isStarting), read: watchCall },

  { name: 'the value asked for, off its source', applies: all(isSure, asks('reading')), read: readOffSource },
  { name: 'the reason asked for', applies: all(isSure, asks('passReason')), read: passReason },
  { name: 'a cross-check', applies: all(isSure, not(isStandingBy), not(asks('reading'))), read: crossCheck },
  { name: 'an order instead', applies: all(asks('order'), isCorrection, hasRest), read: otherOrder },
  { name: 'a command while Otherseat waits', applies: all(isSure, isWaiting), read: command },
  { name: 'the order once more', applies: asks('order'), read: talk },
  { name: 'what was waited for', applies: all(isStandingBy, not(isAsking)), read: awaited },
  { name: 'a value that could not be read', applies: all(isSure, asks('reading')), read: sayAgain },
  { name: 'typed words that answer nothing', applies: all(isAsking, isTyped), read: sayAgain },
  { name: 'other speech while Otherseat waits', applies: isWaiting, read: overheard },

  { name: 'a read-back put right', applies: all(isSure, isObjection), read: secondThoughts },
  { name: 'a correction of what was closed', applies: all(isSure, isCorrection, isNothingBegun), read: correction },
  { name: 'an answer that lost its first word', applies: all(isCut, at('item')), read: cutAnswer },
  { name: 'an answer to the open item', applies: at('item'), read: answer },
  { name: 'the clearance waited for', applies: all(isSure, at('line')), read: clearance },
  { name: 'steps of the open flow', applies: all(isSure, at('flow')), read: flowCall },
  { name: 'a call or a read-back', applies: at('exchange'), read: talk },
  { name: 'topics of the briefing', applies: at('briefing'), read: talk },

  { name: 'a start that begins', applies: isSure, read: watchCall },
  { name: 'a command', applies: isSure, read: command },
  { name: 'a situation that has changed', applies: isSure, read: situation },
]
