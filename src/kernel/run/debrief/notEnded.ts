/** Lists and starts that were begun before what comes ahead of them was called done: no question in the moment, told afterwards. */

import { holds } from '../../figures/condition.ts'
import type { Activity } from '../../pack/checklist.ts'
import { activityName, listsOf } from '../../pack/place.ts'
import { isAhead } from '../core/moving.ts'
import { listName } from '../core/phrases.ts'
import type { RunState } from '../core/state.ts'
import type { Moment, Tally } from './tally.ts'

/**
 * Flows and briefings of its phase that stand before a list or a start and were still open when that was begun.
 * A silent flow has no spoken end. Each is told once.
 */
export function tellNotEnded({ notEnded }: Tally, { pack, event, before, after }: Moment): void {
  const called = Object.keys(after.lists).filter((id) => after.lists[id]?.called && !before.lists[id]?.called)
  const begun = Object.keys(after.watches).filter((id) => isRunning(after, id) && !isRunning(before, id))
  for (const id of [...called, ...begun]) {
    const phase = pack.phases.find(({ activities }) => activities.some((activity) => activity.id === id))
    const activities = phase?.activities ?? []
    const ahead = activities.slice(
      0,
      activities.findIndex((activity) => activity.id === id),
    )
    for (const activity of ahead) {
      const hasEnd = activity.type === 'flow' || activity.type === 'briefing'
      const isOpen = hasEnd && holds(activity.when, before) && isAhead(before, activity)
      // What was asked about, and put off, is told as that.
      const { question } = before
      const isAskedAbout = question?.about === 'outOfOrder' && question.next === activity.id
      if (!isOpen || isAskedAbout || notEnded.some((one) => one.id === activity.id)) continue
      const isUnbegun = !isBegun(before, activity)
      const ended = isUnbegun ? 'not begun' : activity.type === 'flow' ? 'not called complete' : 'not ended'
      const name = activityName(pack, id)
      const next = first(listsOf(pack).some((list) => list.id === id) ? listName(name) : name, 'toLowerCase')
      const text = `${first(activity.name, 'toUpperCase')} ${ended} before the ${next}`
      notEnded.push({ t: event.t, id: activity.id, text, ...(isUnbegun && { isUnbegun }) })
    }
  }
}

const isRunning = ({ watches }: Moment['after'], id: string) => watches[id]?.status === 'running'

/** A step was done, or the flow is being read out; a topic was said. */
function isBegun(state: RunState, activity: Activity): boolean {
  if (activity.type === 'briefing') return activity.topics.some(({ id }) => state.topics[id] !== undefined)
  if (activity.type !== 'flow') return true
  const isReadOut = state.readingFlow && state.floor.at === 'flow'
  return isReadOut || activity.steps.some(({ id }) => state.stepsDone.includes(id))
}

const first = (name: string, change: 'toLowerCase' | 'toUpperCase') => `${name.charAt(0)[change]()}${name.slice(1)}`
