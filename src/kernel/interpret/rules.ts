/**
 * The order in which an utterance is looked at. A rule says where it applies and what it makes of the utterance there;
 * the first that makes something of it decides.
 */

import type { EventBody } from '../run/core/events.ts'
import { clearance, flowCall, situation, stepOwed } from './announcements.ts'
import { answer, cutAnswer } from './answer.ts'
import { command, correction, passReason, recheck, sayAgain } from './command.ts'
import {
  type Applies,
  all,
  asks,
  asksForValue,
  at,
  hasRest,
  inListOrTalk,
  isAsking,
  isCorrection,
  isCut,
  isNothing,
  isNothingBegun,
  isObjection,
  isStandingBy,
  isStarting,
  isSure,
  isSureEnoughToStop,
  isTyped,
  isWaiting,
  not,
} from './conditions.ts'
import { crossCheck, readOffSource } from './crossCheck.ts'
import { isLate, lateWords } from './late.ts'
import { ownValue } from './ownValue.ts'
import { accepted, breakOver, challenge, hasPartner, objection } from './partner.ts'
import { secondThoughts } from './readBack.ts'
import { recheckUnknown } from './recheckUnknown.ts'
import { brakesSet, stop } from './stop.ts'
import { awaited, otherOrder, talk } from './talk.ts'
import { overheard, type Utterance } from './utterance.ts'
import { abnormalCall, callNotUnderstood, startCall, stopCarriedOut, watchCall } from './watchCall.ts'

export interface Rule {
  /** What it takes the utterance for. */
  readonly name: string
  readonly applies: Applies
  /** Undefined where the utterance is none. */
  readonly read: (utterance: Utterance) => EventBody | undefined
}
export const RULES: readonly Rule[] = [
  { name: 'nothing, or other speech', applies: isNothing, read: overheard },
  // Before words are late, before anything that is open, and also where their beginning was lost.
  { name: 'stop', applies: isSureEnoughToStop, read: stop },
  { name: 'words of an earlier turn', applies: isLate, read: lateWords },
  // An engine that is being started is heard whatever else is open.
  { name: 'a call of the start under way', applies: all(isSure, isStarting), read: watchCall },

  { name: 'the value asked for, off its source', applies: all(isSure, asks('reading')), read: readOffSource },
  { name: 'the value that the pilot worked out', applies: all(isSure, asks('ownValue')), read: ownValue },
  { name: 'the reason asked for', applies: all(isSure, asks('passReason')), read: passReason },
  { name: 'brakes set, where that was asked', applies: all(isSure, asks('brakes')), read: brakesSet },
  { name: 'a cross-check', applies: all(isSure, not(isStandingBy), not(asksForValue)), read: crossCheck },
  { name: 'an order instead', applies: all(asks('order'), isCorrection, hasRest), read: otherOrder },
  { name: 'a command while Otherseat waits', applies: all(isSure, isWaiting), read: command },
  { name: 'the order once more', applies: asks('order'), read: talk },
  { name: 'what was waited for', applies: all(isStandingBy, not(isAsking)), read: awaited },
  { name: 'a value that could not be read', applies: all(isSure, asksForValue), read: sayAgain },
  { name: 'the order of a stop, carried out', applies: isSure, read: stopCarriedOut },
  { name: 'typed words that answer nothing', applies: all(isAsking, isTyped), read: sayAgain },
  { name: 'no call, where one is questioned', applies: all(isAsking, not(isStandingBy)), read: callNotUnderstood },
  { name: 'other speech while Otherseat waits', applies: isWaiting, read: overheard },

  { name: 'a word for whoever interrupts', applies: all(isSure, hasPartner), read: breakOver },
  { name: 'an objection', applies: all(isSure, hasPartner), read: objection },
  { name: 'a read-back put right', applies: all(isSure, isObjection), read: secondThoughts },
  { name: 'a challenge of the pilot’s', applies: all(isSure, at('item')), read: challenge },
  { name: 'an answer of Otherseat’s taken for right', applies: all(isSure, at('item')), read: accepted },
  { name: 'a correction of what was closed', applies: all(isSure, isCorrection, isNothingBegun), read: correction },
  { name: 'an item to be rechecked that there is not', applies: isSure, read: recheckUnknown },
  { name: 'a start that begins inside something else', applies: all(isSure, inListOrTalk), read: startCall },
  { name: 'an answer that lost its first word', applies: all(isCut, at('item')), read: cutAnswer },
  { name: 'an answer to the open item', applies: at('item'), read: answer },
  { name: 'the clearance waited for', applies: all(isSure, at('line')), read: clearance },
  { name: 'steps of the open flow', applies: all(isSure, at('flow')), read: flowCall },
  { name: 'a step that the exchange waits for', applies: all(isSure, at('exchange')), read: stepOwed },
  { name: 'an item to be rechecked', applies: isSure, read: recheck },
  { name: 'a call or a read-back', applies: at('exchange'), read: talk },
  { name: 'topics of the briefing', applies: at('briefing'), read: talk },

  { name: 'a start that begins', applies: isSure, read: watchCall },
  { name: 'a command', applies: isSure, read: command },
  { name: 'an abnormal call where no start runs', applies: all(isSure, not(isStarting)), read: abnormalCall },
  { name: 'a situation that has changed', applies: isSure, read: situation },
  { name: 'no call of the start', applies: at('watch'), read: callNotUnderstood },
]
