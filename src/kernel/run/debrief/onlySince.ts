/**
 * What of a run counts where its log begins with what did not happen in it. Of a moment done again that is what was said or
 * done since; of a run begun in the middle, all that was not done by then.
 */

import { itemState } from '../core/progress.ts'
import type { RunState } from '../core/state.ts'
import { turnState } from '../talk/talk.ts'
import { type DebriefBriefing, missesInBriefing } from './debriefBriefing.ts'
import type { DebriefList } from './debriefList.ts'
import type { DebriefExchange } from './debriefTalk.ts'
import type { DebriefFlow } from './debriefWatch.ts'

export interface Since {
  lists(all: readonly DebriefList[]): readonly DebriefList[]
  exchanges(all: readonly DebriefExchange[]): readonly DebriefExchange[]
  briefings(all: readonly DebriefBriefing[]): readonly DebriefBriefing[]
  flows(all: readonly DebriefFlow[]): readonly DebriefFlow[]
}

/** `seam`: the state before the first event that counts; `after`: at the end. */
export function sinceIn(seam: RunState, after: RunState): Since {
  const { again, begunAt } = after
  if (!again && !begunAt) {
    return { lists: (all) => all, exchanges: (all) => all, briefings: (all) => all, flows: (all) => all }
  }
  const isAgain = again !== undefined
  // What the other run left open elsewhere is its own.
  const isTouched = (id: string, items: DebriefList['items']) =>
    ('list' in seam.floor && seam.floor.list === id) ||
    after.lists[id] !== seam.lists[id] ||
    items.some((item) => after.items[item.id] !== seam.items[item.id])
  const wasBriefed = (id: string) => seam.briefingsClosed.includes(id)
  const wasClosed = (id: string) => seam.flowsClosed.includes(id)
  return {
    lists: (all) => listsSince(isAgain ? all.filter(({ id, items }) => isTouched(id, items)) : all, seam, isAgain),
    exchanges: (all) => exchangesSince(all, seam, isAgain),
    briefings: (all) =>
      all.filter((one) => (one.done || !isAgain) && (!wasBriefed(one.id) || missesInBriefing(one) > 0)),
    flows: (all) => all.filter(({ id, closed }) => (closed || !isAgain) && !wasClosed(id)),
  }
}

/** With the items that were not closed before, or were tried or opened again since. */
function listsSince(lists: readonly DebriefList[], seam: RunState, isAgain: boolean): DebriefList[] {
  const isOld = (id: string) => ['done', 'passed'].includes(itemState(seam, id).status)
  return lists
    .filter(({ called }) => called || !isAgain)
    .map((list) => ({
      ...list,
      items: list.items.filter(({ id, tries, reopened }) => !isOld(id) || tries.length + reopened > 0),
    }))
    .filter(({ items }) => items.length > 0)
}

/**
 * With the turns that something was said to since; of a run begun in the middle those that are still ahead too. What was
 * done before it and was opened again is not left out by anybody.
 */
function exchangesSince(exchanges: readonly DebriefExchange[], seam: RunState, isAgain: boolean): DebriefExchange[] {
  const wasDone = (id: string) => turnState(seam, id).status === 'done'
  return exchanges
    .map((exchange) => {
      const turns = exchange.turns.filter(
        ({ id, tries, done }) => tries.length > 0 || (!wasDone(id) && (done || !isAgain)),
      )
      return { ...exchange, turns, done: turns.every(({ done }) => done) }
    })
    .filter(({ turns }) => turns.length > 0)
}
