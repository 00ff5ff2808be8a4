/** A list is called: what is asked before it is run. */

import { holds } from '../../figures/condition.ts'
import type { Activity, Pack } from '../../pack/checklist.ts'
import { agenda, listById } from '../../pack/place.ts'
import { sayAndListen } from '../core/listening.ts'
import { callList, isAhead } from '../core/moving.ts'
import { say } from '../core/phrases.ts'
import { listState } from '../core/progress.ts'
import type { Question, RunState, Step } from '../core/state.ts'
import { briefingsOf, isBegun } from '../talk/talk.ts'
import { startUnderWay } from '../watch/watching.ts'

/** Questions that are themselves about which list is to be run: another call takes their place. */
const OF_CALLS: ReadonlySet<Question['about']> = new Set(['outOfOrder', 'finalFiguresIn'])

/** Any other open question is answered first, or put away in words. Throws where the pack does not have the list. */
export function listCalled(pack: Pack, before: RunState, id: string): Step {
  const { name, anytime } = listById(pack, id)
  const { question } = before
  // An engine that burns waits for nothing: no question, no other list, no start.
  if (anytime && openList(before) !== id) return callList(pack, { ...before, standingBy: false }, id)
  if (question && !OF_CALLS.has(question.about)) {
    return sayAndListen(pack, { ...before, standingBy: false }, [], { prompt: true })
  }
  const state = { ...before, standingBy: false }
  if (openList(state) === id) return sayAndListen(pack, { ...state, question: undefined }, [], { prompt: true })
  const waits = startUnderWay(pack, before)
  if (waits) return waits
  const { complete, called: begun } = listState(state, id)
  if (complete) return sayAndListen(pack, state, [say.alreadyComplete(name)], { prompt: true })
  const next = begun ? undefined : comesFirst(pack, state, id)
  if (next === undefined) return inItsTurn(pack, state, id)
  return sayAndListen(pack, { ...state, question: { about: 'outOfOrder', list: id, next } }, [], { prompt: true })
}

/** It may be run now; one that needs final figures asks for those first. */
export function inItsTurn(pack: Pack, state: RunState, id: string): Step {
  const isEarly = listById(pack, id).needsFinal && state.figureStatus === 'preliminary' && !listState(state, id).called
  if (!isEarly) return callList(pack, state, id)
  return sayAndListen(pack, { ...state, question: { about: 'finalFiguresIn', list: id } }, [], { prompt: true })
}

const openList = ({ floor }: RunState) => ('list' in floor ? floor.list : undefined)

/**
 * What comes before it in the order of the pack: the first list or start that is still to be done; else what was to be said
 * in its phase: a briefing, or an exchange under way; and a briefing that is open again, wherever it was. A list that may be called at any time is finished before any other.
 */
function comesFirst(pack: Pack, state: RunState, id: string): string | undefined {
  const open = openList(state)
  if (open !== undefined && listById(pack, open).anytime) return open
  const places = agenda(pack, state)
  const before = places.slice(
    0,
    places.findIndex(({ activity }) => activity.id === id),
  )
  const due = before.find(({ activity }) => isDue(state, activity) || activity.id === open)
  return due?.activity.id ?? talkBefore(pack, state, id)
}

const isDue = (state: RunState, activity: Activity) =>
  (activity.type === 'list' || activity.type === 'watch') && isAhead(state, activity)

function talkBefore(pack: Pack, state: RunState, id: string): string | undefined {
  // New figures opened it again: it is briefed anew before anything is begun.
  const again = briefingsOf(pack).find((one) => state.closed.includes(one.id) && isAhead(state, one))
  if (again) return again.id
  const { activities = [] } = pack.phases.find((phase) => phase.activities.some((one) => one.id === id)) ?? {}
  const before = activities.slice(
    0,
    activities.findIndex((one) => one.id === id),
  )
  const isOwed = (one: Activity) => one.type === 'briefing' || (one.type === 'exchange' && isBegun(one, state))
  return before.find((one) => isOwed(one) && holds(one.when, state) && isAhead(state, one))?.id
}
