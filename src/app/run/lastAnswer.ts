/** What was said last of what a room looks at, and the state that it came in: what a demonstration shows. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import { emptyRun } from '../../kernel/run/core/emptyRun.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import { isForRoom, type RoomMoment } from '../../kernel/run/core/forRoom.ts'
import { thawedBy, thawedEvent } from '../../kernel/run/core/freezing.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { step } from '../../kernel/run/core/step.ts'
import { isSettled, type SettledMoment } from '../view/settledTold.ts'

export type ShownMoment = RoomMoment | SettledMoment

/** What one event leaves to be shown: an answer takes the place of the one before, new figures leave none. */
export function answerAfter(
  pack: Pack,
  last: ShownMoment | undefined,
  { before, event }: { readonly before: RunState; readonly event: RunEvent },
): ShownMoment | undefined {
  if (isSettled(pack, before, event)) return { before: thawedBy(before, event), event }
  if (isForRoom(event)) return { before: thawedBy(before, event), event: thawedEvent(before, event) }
  // It belongs to other figures.
  return event.type === 'figuresRevised' && event.takenDown === undefined ? undefined : last
}

/** From a log, up to its end; undefined where nothing was answered. */
export function lastAnswerIn(pack: Pack, events: readonly RunEvent[]): ShownMoment | undefined {
  let state = emptyRun(events[0]?.runId ?? '')
  let last: ShownMoment | undefined
  for (const event of events) {
    last = answerAfter(pack, last, { before: state, event })
    state = step(pack, state, event).state
  }
  return last
}
