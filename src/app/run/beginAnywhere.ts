/** The log that a run begins with where it is begun in the middle: nothing in it was said, and the run goes on behind it. */

import { holds } from '../../kernel/figures/condition.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import type { ExchangeTurn } from '../../kernel/pack/exchange.ts'
import { earlierThan } from '../../kernel/run/core/begunAt.ts'
import { emptyRun } from '../../kernel/run/core/emptyRun.ts'
import type { EventBody, RunEvent } from '../../kernel/run/core/events.ts'
import { LOG_VERSION } from '../../kernel/run/core/readLog.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { step } from '../../kernel/run/core/step.ts'
import { copiedDown } from '../../kernel/run/talk/copiedDown.ts'
import { unrecorded } from '../../kernel/run/talk/talk.ts'
import { type Beginning, startOf } from './beginning.ts'
import { type Revision, revisedBy, revisionsAfter, withoutGiven, withTaken } from './revision.ts'

/**
 * The figures are accepted, what stations give before the activity comes in as they would have said it and stands on the
 * scratch pad, and all that comes before it counts as done. `now`: clock time, ms since 1970. Throws where the pack does not have the activity.
 */
export function eventsBegunAt(
  pack: Pack,
  { sheets = [], from, inputs, ...beginning }: Beginning,
  { activity, runId, now }: { readonly activity: string; readonly runId: string; readonly now: number },
): RunEvent[] {
  const events: RunEvent[] = []
  let state = emptyRun(runId)
  let revisions: readonly Revision[] = []
  const happen = (body: EventBody) => {
    const stamp = { v: LOG_VERSION, seq: events.length, runId, t: 0, wall: new Date(now).toISOString() } as const
    const event: RunEvent = { ...stamp, ...body }
    const before = state
    state = step(pack, before, event).state
    revisions = revisionsAfter(pack, revisions, { before, event, state })
    events.push(event)
  }
  happen(startOf(pack, { ...beginning, inputs }, now))
  for (const sheet of sheets) happen({ type: 'sheetCame', sheet })
  happen(revisedBy(pack, state.script ? withoutGiven(pack, inputs, undefined) : inputs, undefined, from))
  const turns = turnsBefore(pack, state, activity)
  for (const turn of turns) {
    const values = unrecorded(turn, state)
    if (Object.keys(values).length === 0) continue
    const taken = withTaken(pack, { ...(state.inputs ?? inputs), situation: state.situation }, values)
    happen(revisedBy(pack, taken, revisions.at(-1), { takenDown: turn.id }))
  }
  const copied = copiedDown(pack, state, turns)
  if (copied.length > 0) happen({ type: 'padWritten', text: copied.join('\n'), strokes: [] })
  happen({ type: 'begunAt', activity, evidence: { by: 'key', text: '' } })
  return events
}

function turnsBefore(pack: Pack, state: RunState, activity: string): ExchangeTurn[] {
  return earlierThan(pack, state, activity).flatMap((one) =>
    one.type === 'exchange' ? one.turns.filter(({ when }) => holds(when, state)) : [],
  )
}
