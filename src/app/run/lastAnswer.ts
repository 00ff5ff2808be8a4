/** What was said last of what a room looks at, and the state that it came in: what a demonstration shows. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import { emptyRun } from '../../kernel/run/core/emptyRun.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import { isForRoom, type RoomMoment } from '../../kernel/run/core/forRoom.ts'
import { thawedBy, thawedEvent } from '../../kernel/run/core/freezing.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { step } from '../../kernel/run/core/step.ts'

/** What one event leaves to be shown: an answer takes the place of the one before, new figures leave none. */
export function answerAfter(
  last: RoomMoment | undefined,
  { before, event }: { readonly before: RunState; readonly event: RunEvent },
): RoomMoment | undefined {
  if (isForRoom(event)) return { before: thawedBy(before, event), event: thawedEvent(before, event) }
  // It belongs to other figures.
  return event.type === 'figuresRevised' && event.takenDown === undefined ? undefined : last
}

/** From a log, up to its end; undefined where nothing was answered. */
export function lastAnswerIn(pack: Pack, events: readonly RunEvent[]): RoomMoment | undefined {
  let state = emptyRun(events[0]?.runId ?? '')
  let last: RoomMoment | undefined
  for (const event of events) {
    last = answerAfter(last, { before: state, event })
    state = step(pack, state, event).state
  }
  return last
}
