/** What of a run a room looks at: answers and transmissions, topics of a briefing, a start and its calls; and how each stands. */

import { isMiss, type Verdict } from '../../response/model.ts'
import { callOutcome } from '../watch/callOutcome.ts'
import { watchState } from '../watch/watchTiming.ts'
import type { EventType, RunEvent } from './events.ts'
import type { RunState } from './state.ts'

export type AnswerEvent = RunEvent<'answered'> | RunEvent<'transmitted'>

const ROOM_TYPES = [
  ...(['answered', 'transmitted', 'briefed', 'briefingEnded'] as const),
  ...(['watchBegan', 'watchCalled', 'watchStopped'] as const),
]
export type RoomEvent = RunEvent<(typeof ROOM_TYPES)[number]>

/** What a room looks at, and the state of the run that it came in. */
export interface RoomMoment {
  readonly before: RunState
  readonly event: RoomEvent
}

export const isAnswer = (event: RunEvent): event is AnswerEvent =>
  event.type === 'answered' || event.type === 'transmitted'

export const isForRoom = (event: RunEvent): event is RoomEvent =>
  (ROOM_TYPES as readonly EventType[]).includes(event.type)

/** Stop words wait for nobody: neither for the room's opinion nor for its look. */
export const canWait = (type: EventType): boolean =>
  type !== 'watchStopped' && (ROOM_TYPES as readonly EventType[]).includes(type)

/** Whether the pilot missed something, told by the states around the event. */
export function isMissed(before: RunState, after: RunState, event: RoomEvent): boolean {
  return isMiss({ verdict: verdictOf(before, after, event) })
}

export function verdictOf(before: RunState, after: RunState, event: RoomEvent): Verdict {
  switch (event.type) {
    case 'answered':
    case 'transmitted':
      return event.judgement.verdict
    case 'briefed': {
      if (event.heard.length > 0 || Object.values(event.topics).includes('wrong')) return 'negative'
      return !event.ends || after.briefingsClosed.includes(event.briefing) ? 'correct' : 'incomplete'
    }
    case 'briefingEnded':
      return after.briefingsClosed.includes(event.briefing) ? 'correct' : 'incomplete'
    case 'watchBegan': {
      const { status, attempt } = watchState(after, event.watch)
      const isNew = attempt !== watchState(before, event.watch).attempt
      return status === 'running' && isNew ? 'correct' : 'negative'
    }
    case 'watchStopped':
      return watchState(after, event.watch).status === 'stopped' ? 'correct' : 'negative'
    case 'watchCalled': {
      const outcome = callOutcome(before, after, event)
      return outcome === 'taken' || outcome === 'again' ? 'correct' : outcome === 'noValue' ? 'incomplete' : 'negative'
    }
  }
}
