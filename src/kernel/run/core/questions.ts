/** What follows from affirm and from negative: what Otherseat has asked says which. */

import type { Pack } from '../../pack/checklist.ts'
import { agenda, findItem, listsOf } from '../../pack/place.ts'
import { closeItem } from '../list/answering.ts'
import { inItsTurn } from '../list/listCalls.ts'
import { unfinished } from '../talk/briefing.ts'
import { answerTo } from '../talk/exchanging.ts'
import { findTurn } from '../talk/talk.ts'
import { confirmed, doubted, seenBefore } from '../watch/calling.ts'
import { notSeen } from '../watch/watching.ts'
import type { By } from './events.ts'
import { enter, sayAndListen } from './listening.ts'
import { advance, callList, floorOf, nextFloor } from './moving.ts'
import { unasked } from './ownValue.ts'
import { say } from './phrases.ts'
import type { Question, RunState, Step } from './state.ts'
import { brakesSet } from './stopping.ts'

/** Without an open question affirm changes nothing. */
export function affirmed(pack: Pack, state: RunState, by: By): Step {
  const { question } = state
  switch (question?.about) {
    case undefined:
    case 'reading':
    case 'ownValue':
      return { state, effects: [] }
    case 'order': {
      const { exchange, turn: order } = findTurn(pack, question.turn)
      return answerTo(pack, { ...state, question: undefined }, exchange, order, question.heard)
    }
    case 'callOrder':
      return seenBefore(pack, state, question)
    case 'callEarly':
    case 'callValue':
      return confirmed(pack, state, question)
    case 'brakes':
      return brakesSet(pack, state)
    case 'passReason':
      return sayAndListen(pack, state, [], { prompt: true })
    case 'pass':
      return passed(pack, state, question, by)
    case 'warnings':
      return advance(pack, { ...state, question: undefined, warnings: [], warned: [] }, question.list)
    case 'outOfOrder':
      return firstThings(pack, state, question.next)
    case 'finalFiguresIn': {
      // Otherseat has those that were accepted: whoever says so once more has the last word.
      if (question.objected || state.figureStatus !== 'preliminary') return callList(pack, state, question.list)
      const asked: RunState = { ...state, question: { ...question, objected: true } }
      return sayAndListen(pack, asked, [say.stillPreliminary()], { prompt: true, tone: 'attention' })
    }
  }
}

/** What was to come first: a list is called with that, a start waits for its call, a briefing or an exchange comes in its turn. */
function firstThings(pack: Pack, state: RunState, next: string): Step {
  const isList = listsOf(pack).some(({ id }) => id === next)
  if (isList) return inItsTurn(pack, state, next)
  const start = agenda(pack, state).find(({ activity }) => activity.type === 'watch' && activity.id === next)
  const floor = start ? floorOf(pack, state, start) : nextFloor(pack, state)
  return enter(pack, { ...state, question: undefined }, floor)
}

function passed(pack: Pack, state: RunState, question: Extract<Question, { about: 'pass' }>, by: By): Step {
  const { item, list } = findItem(pack, question.item)
  const { reason } = question
  if (item.critical && !question.affirmed) {
    return sayAndListen(pack, { ...state, question: { ...question, affirmed: true } }, [], { prompt: true })
  }
  const closed = closeItem(state, item, { status: 'passed', by, reason, revision: state.revision })
  return advance(pack, closed, list.id, { words: [say.passed(item.challenge)] })
}

/** A warning that is not acknowledged leaves its list to be called again; a list may be run before its turn, after a briefing that
 * was begun has been asked for once more; any other question is just dropped. */
export function refused(pack: Pack, state: RunState): Step {
  const { question } = state
  const free = { ...state, question: undefined }
  switch (question?.about) {
    case 'callOrder':
      return notSeen(pack, free, question)
    case 'callEarly':
    case 'callValue':
      return doubted(pack, free, question)
    case 'brakes':
      return sayAndListen(pack, state, [], { prompt: true })
    case 'warnings':
      return enter(pack, free, nextFloor(pack, free))
    case 'outOfOrder':
      return unfinished(pack, free, question.next) ?? callList(pack, state, question.list)
    case 'ownValue':
      return unasked(pack, state)
    case undefined:
    case 'reading':
    case 'order':
    case 'passReason':
    case 'pass':
    case 'finalFiguresIn':
      return sayAndListen(pack, free, [], { prompt: true })
  }
}
