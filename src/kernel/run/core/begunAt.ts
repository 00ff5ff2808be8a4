/**
 * A run that is begun in the middle: everything before one activity counts as done. Nobody has said any of it, so it is no
 * part of what the run is about; but what it rests on may change, and opens it again.
 */

import { holds } from '../../figures/condition.ts'
import type { Activity, Pack, Watch } from '../../pack/checklist.ts'
import { activityById, agenda, entriesOf, itemsOf, responseOf, stepsOf } from '../../pack/place.ts'
import { topicsOf } from '../talk/briefing.ts'
import { closeTurn } from '../talk/talk.ts'
import { withWatch } from '../watch/watchTiming.ts'
import { withPastAnnounced } from './clocks.ts'
import type { RunEvent } from './events.ts'
import { stamped } from './interlocks.ts'
import { enter } from './listening.ts'
import { nextFloor } from './moving.ts'
import { restedOn, withItem, withList } from './progress.ts'
import type { RunState, Step } from './state.ts'

/** All that has to be waited for after what counts as done is over: no start and no warm-up takes longer. */
const LONG_AGO_MS = 3_600_000

/** Throws where the pack does not have the activity. */
export function begunAt(pack: Pack, before: RunState, { activity, seq, t }: RunEvent<'begunAt'>): Step {
  if (!activityById(pack, activity)) throw new Error(`pack ${pack.id} has no activity ${activity}`)
  const earlier = earlierThan(pack, before, activity)
  const marked = earlier.reduce(asDone, before)
  const begun: RunState = {
    ...stamped(marked, t - LONG_AGO_MS),
    begunAt: { activity, seq, isCopied: before.pad.text !== '' },
    // The pilot's own values are asked for with the first thing of a run.
    ownToAsk: earlier.length === 0 ? before.ownToAsk : [],
    question: undefined,
    last: undefined,
  }
  const state = withPastAnnounced(pack, begun)
  return enter(pack, state, nextFloor(pack, state))
}

/** Activities that apply and come before this one, in their order; lists for any time belong to no place. */
export function earlierThan(pack: Pack, state: RunState, activity: string): Activity[] {
  const ids = pack.phases.flatMap(({ activities }) => activities.map(({ id }) => id))
  return agenda(pack, state)
    .map((place) => place.activity)
    .filter((one) => ids.indexOf(one.id) < ids.indexOf(activity))
    .filter((one) => !(one.type === 'list' && one.anytime))
    .filter(({ type }) => state.script !== undefined || (type !== 'exchange' && type !== 'briefing'))
}

function asDone(state: RunState, activity: Activity): RunState {
  switch (activity.type) {
    case 'flow': {
      const steps = stepsOf(activity, state).map(({ id }) => id)
      return {
        ...state,
        flowsClosed: [...new Set([...state.flowsClosed, activity.id])],
        stepsDone: [...new Set([...state.stepsDone, ...steps])],
      }
    }
    case 'list':
      return listDone(state, activity)
    case 'watch':
      return withWatch(state, activity.id, { status: 'done', calls: longAgo(activity) })
    case 'exchange':
      return activity.turns
        .filter(({ when }) => holds(when, state))
        .reduce((next, turn) => closeTurn(next, turn), state)
    case 'briefing': {
      const topics = topicsOf(activity, state).map(({ id }) => [id, 'ok'] as const)
      return {
        ...state,
        topics: { ...state.topics, ...Object.fromEntries(topics) },
        briefingsClosed: [...new Set([...state.briefingsClosed, activity.id])],
      }
    }
  }
}

const longAgo = ({ calls }: Watch) => Object.fromEntries(calls.map(({ id }) => [id, -LONG_AGO_MS]))

/** Its items rest on the figures as they are; which answer was given is in no log. */
function listDone(before: RunState, list: Extract<Activity, { type: 'list' }>): RunState {
  const { revision, figureStatus } = before
  const entries = entriesOf(list, before)
  const clearances = entries.flatMap((entry) => (entry.type === 'line' ? [entry.clearance] : []))
  const answered = itemsOf(list, before).reduce((next, item) => {
    const response = responseOf(item, next).text
    const expected = restedOn(item, next)
    return withItem(next, item.id, { status: 'done', response, expected, revision, challengeRevision: revision })
  }, before)
  const state = { ...answered, cleared: [...new Set([...before.cleared, ...clearances])] }
  return withList(state, list.id, { called: true, complete: true, onPreliminary: figureStatus === 'preliminary' })
}
