/** What of a run counts where it is a moment of another one, done again: only what came after those events. */

import type { Pack } from '../../pack/checklist.ts'
import { itemState } from '../core/progress.ts'
import type { RunState } from '../core/state.ts'
import { turnState } from '../talk/talk.ts'
import type { DebriefList } from './debriefList.ts'
import type { DebriefBriefing, DebriefExchange } from './debriefTalk.ts'
import { type DebriefFlow, flowsIn } from './debriefWatch.ts'

/** Lists that were called, with the items that were not closed before or were tried since. */
export function listsSince(lists: readonly DebriefList[], seam: RunState): DebriefList[] {
  const isOld = (id: string) => ['done', 'passed'].includes(itemState(seam, id).status)
  return lists
    .filter(({ called }) => called)
    .map((list) => ({
      ...list,
      items: list.items.filter(({ id, tries, reopened }) => !isOld(id) || tries.length + reopened > 0),
    }))
    .filter(({ items }) => items.length > 0)
}

/** Exchanges with turns that something was said to since. */
export function exchangesSince(exchanges: readonly DebriefExchange[], seam: RunState): DebriefExchange[] {
  return exchanges
    .map((exchange) => ({
      ...exchange,
      turns: exchange.turns.filter(
        ({ id, tries, done }) => tries.length > 0 || (done && turnState(seam, id).status !== 'done'),
      ),
    }))
    .filter(({ turns }) => turns.length > 0)
}

/** Briefings that were given since. */
export function briefingsSince(
  briefings: readonly DebriefBriefing[],
  { before, after }: { readonly before: RunState; readonly after: RunState },
): DebriefBriefing[] {
  const wasGiven = ({ id }: DebriefBriefing) =>
    after.briefingsClosed.includes(id) && !before.briefingsClosed.includes(id)
  return briefings.filter(wasGiven)
}

/** Flows that were gone on from since. */
export function flowsSince(
  pack: Pack,
  { before, after }: { readonly before: RunState; readonly after: RunState },
): DebriefFlow[] {
  return flowsIn(pack, after).filter(({ id, closed }) => closed && !before.flowsClosed.includes(id))
}
