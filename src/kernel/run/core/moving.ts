/** Which place comes next: inside a list, and from one activity to another. */

import { holds } from '../../figures/condition.ts'
import type { Activity, Line, List, Pack } from '../../pack/checklist.ts'
import { calledEvent } from '../../pack/condition.ts'
import type { ExchangeTurn } from '../../pack/exchange.ts'
import { agenda, entriesOf, findItem, itemsOf, listById } from '../../pack/place.ts'
import { restsOf } from '../../pack/rests.ts'
import { isCalledComplete, isGoneBy, partnerOf, withPartnerState } from '../partner/partner.ts'
import { exchangesOf } from '../talk/talk.ts'
import { letGo } from './lateCatch.ts'
import { type Arrival, enter, sayAndListen } from './listening.ts'
import { say } from './phrases.ts'
import { isClosed, itemState, listState, withItem, withList } from './progress.ts'
import type { Floor, RunState, Step } from './state.ts'

/**
 * The next entry of a list in its own order. An item left open is passed over until nothing else is
 * open; the line holds everything below it. What a partner who errs has gone by is passed over for good.
 */
export function nextInList(pack: Pack, state: RunState, id: string): Floor | undefined {
  const entries = entriesOf(listById(pack, id), state)
  for (const entry of entries) {
    if (entry.type === 'line' && !state.cleared.includes(entry.clearance))
      return clearanceFloor(pack, state, entry.clearance) ?? { at: 'line', list: id, line: entry.id }
    const isOpen = entry.type === 'item' && !isClosed(state, entry.id) && !isGoneBy(state, entry.id)
    if (isOpen && itemState(state, entry.id).status !== 'leftOpen') {
      return { at: 'item', list: id, item: entry.id }
    }
  }
  const left = entries.find(
    (entry) => entry.type === 'item' && !isClosed(state, entry.id) && !isGoneBy(state, entry.id),
  )
  return left && { at: 'item', list: id, item: left.id }
}

/**
 * At a line, the exchange that gives its clearance has the floor, wherever the pack has it; before it the one that it waits
 * for, or nobody could ever ask for the clearance.
 */
function clearanceFloor(pack: Pack, state: RunState, clearance: string): Floor | undefined {
  const exchanges = agenda(pack, state).flatMap(({ phase, index, activity }) =>
    activity.type === 'exchange' && isAhead(state, activity)
      ? [{ turns: activity.turns, floor: { at: 'exchange', phase, activity: index } as const }]
      : [],
  )
  const floorWith = (is: (turn: ExchangeTurn) => boolean, asked: readonly string[] = []): Floor | undefined => {
    const found = exchanges.find(({ turns }) => turns.some((one) => is(one) && isTurnAhead(state, one)))
    const turn = found?.turns.find(is)
    const owed = (turn?.interlocks ?? []).map(({ after }) => after).filter((after) => !asked.includes(after))
    const isOwed = ({ id }: ExchangeTurn) => owed.includes(id)
    // In its own exchange the pilot finds the order.
    const isElsewhere = found && !found.turns.some(isOwed)
    return (isElsewhere && owed.length > 0 ? floorWith(isOwed, [...asked, ...owed]) : undefined) ?? found?.floor
  }
  return floorWith(({ clears }) => clears === clearance)
}

/** Inside a list its next entry; the list itself while it is not called. */
export function floorOf(
  pack: Pack,
  state: RunState,
  place: { phase: number; index: number; activity: Activity },
): Floor {
  const { activity, phase, index } = place
  if (activity.type !== 'list') return { at: activity.type, phase, activity: index }
  const inside = listState(state, activity.id).called ? nextInList(pack, state, activity.id) : undefined
  return inside ?? { at: 'call', phase, activity: index }
}

function isTurnAhead(state: RunState, turn: ExchangeTurn): boolean {
  return holds(turn.when, state) && state.turns[turn.id]?.status !== 'done'
}

/** Whether there is something of it still to be done. */
export function isAhead(state: RunState, activity: Activity): boolean {
  switch (activity.type) {
    case 'flow':
      return !activity.silent && !state.flowsClosed.includes(activity.id)
    case 'watch':
      return state.watches[activity.id]?.status !== 'done'
    case 'exchange':
      return state.script !== undefined && activity.turns.some((one) => isTurnAhead(state, one))
    case 'briefing':
      return state.script !== undefined && !state.briefingsClosed.includes(activity.id)
    case 'list': {
      const { called, complete, suspended } = listState(state, activity.id)
      return !complete && !suspended && (called || !activity.anytime)
    }
  }
}

/** A step, an order or a clearance whose figure has changed. */
function isAgain(state: RunState, activity: Activity): boolean {
  if (activity.type === 'exchange') {
    return activity.turns.some((one) => state.turns[one.id]?.again && isTurnAhead(state, one))
  }
  return activity.type === 'flow' && !activity.silent && activity.steps.some(({ id }) => state.stepsAgain.includes(id))
}

/**
 * Where to go when the floor is free: first an engine that is being started, then steps, orders and
 * clearances whose figure has changed, then lists that were taken back or are under way, then the next activity, last what was left.
 */
export function nextFloor(pack: Pack, state: RunState): Floor {
  const places = agenda(pack, state)
  const lists = places.filter((place) => place.activity.type === 'list')
  const isUrgent = (activity: Activity) =>
    activity.type === 'list' && activity.anytime === true && isAhead(state, activity)
  const urgent = places.find(({ activity }) => isUrgent(activity))
  const interrupted = places.find(({ activity }) => activity.id === state.interrupted && isAhead(state, activity))
  const running = places.find(({ activity }) => state.watches[activity.id]?.status === 'running')
  const again = places.find(({ activity }) => isAgain(state, activity))
  const revoked = lists.find(({ activity }) => {
    const list = listState(state, activity.id)
    return list.revoked && !list.complete && !list.suspended
  })
  const underWay = lists.find(({ activity }) => {
    const list = listState(state, activity.id)
    return list.called && !list.complete && !list.suspended
  })
  const ahead = places.find(({ activity }) => isAhead(state, activity))
  const left = lists.find(({ activity }) => isLeft(state, activity))
  const place = urgent ?? running ?? interrupted ?? again ?? revoked ?? underWay ?? ahead ?? left
  return place ? floorOf(pack, state, place) : { at: 'end' }
}

/** A list that may be called at any time is none that the run owes. */
function isLeft(state: RunState, activity: Activity): boolean {
  const { called, complete, suspended } = listState(state, activity.id)
  if (suspended && isCalledComplete(state, activity.id)) return false
  return !complete && (called || activity.type !== 'list' || !activity.anytime)
}

/** What a station gives is open again: an item that rests on it waits until it was given anew. */
export function isGivenFirst(pack: Pack, state: RunState, item: string): boolean {
  const rests = restsOf(findItem(pack, item).item, state)
  const again = exchangesOf(pack).flatMap(({ turns }) =>
    turns.filter((one) => state.turns[one.id]?.again && isTurnAhead(state, one)),
  )
  return again.some(({ sets }) => sets.some((name) => rests.includes(name)))
}

function lineAhead(list: List, state: RunState): Line | undefined {
  return entriesOf(list, state).find(
    (entry): entry is Line => entry.type === 'line' && !state.cleared.includes(entry.clearance),
  )
}

/** Goes on after an entry of a list was dealt with; calls completion where nothing is open. */
export function advance(pack: Pack, state: RunState, id: string, arrival: Arrival = {}): Step {
  const list = listById(pack, id)
  const next = nextInList(pack, state, id)
  const { words = [] } = arrival
  const andThen = (...more: string[]): Arrival => ({ ...arrival, words: [...words, ...more] })
  if (!next && state.heldBack) {
    const { state: told, words: news } = letGo(pack, state)
    if (nextInList(pack, told, id)) return enter(pack, told, nextFloor(pack, told), andThen(...news))
    return advance(pack, told, id, andThen(...news))
  }
  if (!next && state.warnings.length > 0) {
    const asked: RunState = { ...state, question: { about: 'warnings', list: id } }
    return sayAndListen(pack, asked, words, { ...arrival, prompt: true })
  }
  if (!next) {
    const onPreliminary = state.figureStatus === 'preliminary'
    const isWhole = itemsOf(list, state).every((item) => !isGoneBy(state, item.id) || isClosed(state, item.id))
    const done = isWhole
      ? withList(state, id, { complete: true, revoked: false, suspended: false, onPreliminary })
      : calledComplete(state, id, onPreliminary)
    return enter(pack, done, nextFloor(pack, done), andThen(say.completed(list.name, onPreliminary)))
  }
  if (next.at === 'item' && isGivenFirst(pack, state, next.item)) {
    return enter(pack, state, nextFloor(pack, state), arrival)
  }
  const line = next.at === 'exchange' ? lineAhead(list, state) : undefined
  if (line) return enter(pack, state, next, andThen(say.toTheLine(list.name)))
  const asksAgain = next.at === 'item' && itemState(state, next.item).status === 'leftOpen'
  return enter(pack, state, next, asksAgain ? andThen(say.leftOpen()) : arrival)
}

/** Said to be complete by a partner who errs, and gone on from: it is not. */
function calledComplete(state: RunState, id: string, onPreliminary: boolean): RunState {
  const called = [...new Set([...partnerOf(state).calledComplete, id])]
  const gone = withPartnerState(state, { calledComplete: called })
  return withList(gone, id, { complete: false, revoked: false, suspended: true, onPreliminary })
}

/** Flows that come before an activity in its phase are over once it begins. */
export function closeFlowsBefore(pack: Pack, state: RunState, id: string): RunState {
  const phase = pack.phases.find(({ activities }) => activities.some((activity) => activity.id === id))
  const index = phase?.activities.findIndex((activity) => activity.id === id) ?? 0
  const flows = phase?.activities.slice(0, index).filter(({ type }) => type === 'flow') ?? []
  return { ...state, flowsClosed: [...new Set([...state.flowsClosed, ...flows.map((flow) => flow.id)])] }
}

/** Calls a list. */
export function callList(pack: Pack, state: RunState, id: string): Step {
  const { anytime, name } = listById(pack, id)
  const free = anytime ? interruptedBy(pack, state, id) : closeFlowsBefore(pack, state, id)
  const { [calledEvent(id)]: _, ...doneAt } = free.doneAt
  const called = withList({ ...free, doneAt, question: undefined }, id, { called: true, suspended: false })
  return advance(pack, called, id, { words: [say.list(name)] })
}

/** What has the floor waits. A list that was gone through is gone through anew. */
function interruptedBy(pack: Pack, state: RunState, id: string): RunState {
  const { complete } = listState(state, id)
  const items = complete ? itemsOf(listById(pack, id), state) : []
  const anew = items.reduce(
    (next, item) => withItem(next, item.id, { status: 'open', partsSoFar: [], begun: {} }),
    state,
  )
  const interrupted = activityAt(pack, state.floor)
  const isOther = interrupted && !(interrupted.type === 'list' && interrupted.anytime)
  return withList({ ...anew, ...(isOther && { interrupted: interrupted.id }) }, id, { complete: false, revoked: false })
}

/** The activity that has the floor. */
export function activityAt(pack: Pack, floor: Floor): Activity | undefined {
  if ('list' in floor) return listById(pack, floor.list)
  return 'activity' in floor ? pack.phases[floor.phase]?.activities[floor.activity] : undefined
}
