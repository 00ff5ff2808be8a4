/** "Correction", "go back one", "recheck": what was closed last, the item before or the one that is named is open again. */

import type { Activity, Pack } from '../../pack/checklist.ts'
import type { Exchange, ExchangeTurn } from '../../pack/exchange.ts'
import { agenda, findItem, itemsOf, listById, listsOf } from '../../pack/place.ts'
import { partNames } from '../../response/readBack.ts'
import { readBacksOf } from '../talk/radio.ts'
import { briefingsOf, exchangeAt, findTurn, reopenTurn } from '../talk/talk.ts'
import { askAgain, tooSoonToAsk } from './askingAgain.ts'
import type { By } from './events.ts'
import { enter, sayAndListen as listenAfter } from './listening.ts'
import { activityAt, floorOf, isAhead, nextInList } from './moving.ts'
import { listName, say } from './phrases.ts'
import { isClosed, itemState, listState, withItem, withList } from './progress.ts'
import type { RunState, Step } from './state.ts'

/** `rest`: what was said after "correction" follows at once; what it does not say again stands. */
export function corrected(pack: Pack, state: RunState, rest: string): Step {
  return goBack(pack, state, state.closed.at(-1), rest !== '')
}

/**
 * The briefing of that name; the item of that challenge that was closed last, else one left open, else the one that stands
 * open; else the exchange or the call of that name. A call of the exchange that is on comes before any item. What is still to
 * come is said to be, with what comes first, and what is open stays.
 */
export function rechecked(pack: Pack, before: RunState, name: string): Step {
  const state = { ...before, question: undefined, standingBy: false }
  const briefing = briefingsOf(pack).find((one) => one.name === name && state.briefingsClosed.includes(one.id))
  if (briefing) return goBack(pack, state, briefing.id, false)
  const here = exchangeAt(pack, state.floor)?.turns.find(({ id, label }) => label === name && isTurnDone(state, id))
  if (here) return goBack(pack, state, here.id, false)
  const item = itemNamed(pack, state, name)
  if (item !== undefined) return toItem(pack, state, item)
  return toTalk(pack, state, name) ?? stillToCome(pack, before, name)
}

/** It is no answer to what is open, so the last verdict does not stay with it. */
function stillToCome(pack: Pack, before: RunState, name: string): Step {
  const state = { ...before, last: undefined }
  const here = activityAt(pack, state.floor)
  const list = listsOf(pack).find((one) => itemsOf(one, state).some(({ challenge }) => challenge === name))
  if (list && here?.id === list.id && state.floor.at === 'item') {
    const { item } = findItem(pack, state.floor.item)
    return listenAfter(pack, state, [say.notYet(item.challenge)])
  }
  if (list) return listenAfter(pack, state, [say.notCalled(list.name)], { prompt: true })
  const talk = agenda(pack, state).find(({ activity }) => isOfTalk(activity, name))?.activity
  if (!talk) return listenAfter(pack, state, [say.recheckWhat()])
  if (!here || here.id === talk.id) return listenAfter(pack, state, [], { prompt: true })
  return listenAfter(pack, state, [say.firstComplete(here.type === 'list' ? listName(here.name) : here.name)])
}

const isOfTalk = (activity: Activity, name: string): boolean =>
  (activity.type === 'exchange' && [activity, ...activity.turns].some((one) => nameOf(one) === name)) ||
  (activity.type === 'briefing' && activity.name === name)
const nameOf = (one: Exchange | ExchangeTurn) => ('label' in one ? one.label : one.name)

const isTurnDone = (state: RunState, id: string) => state.turns[id]?.status === 'done'

function itemNamed(pack: Pack, state: RunState, challenge: string): string | undefined {
  const lists = listsOf(pack)
  const named = lists.flatMap((list) => itemsOf(list, state)).filter((item) => item.challenge === challenge)
  const ids = named.map(({ id }) => id)
  const closed = ids.filter((id) => isClosed(state, id))
  const open = lists
    .filter(({ id }) => listState(state, id).called && !listState(state, id).complete)
    .flatMap(({ id }) => nextInList(pack, state, id) ?? [])
    .flatMap((floor) => (floor.at === 'item' && ids.includes(floor.item) ? floor.item : []))
  return (
    state.closed.findLast((one) => closed.includes(one)) ??
    closed.at(-1) ??
    ids.find((id) => itemState(state, id).status === 'leftOpen') ??
    open[0]
  )
}

/** What an exchange was about, or a call of one, is said again; what was left on the way is said now. */
function toTalk(pack: Pack, state: RunState, name: string): Step | undefined {
  const here = activityAt(pack, state.floor)?.id
  let isPassed = true
  for (const place of agenda(pack, state)) {
    const { activity } = place
    isPassed &&= activity.id !== here
    if (activity.type !== 'exchange' && activity.type !== 'briefing') continue
    const isNamed = activity.name === name
    const turns = activity.type === 'exchange' ? activity.turns.filter(({ label }) => isNamed || label === name) : []
    const done = turns.filter(({ id }) => isTurnDone(state, id))
    const length = (turn: ExchangeTurn) =>
      turn.label === name ? Number.POSITIVE_INFINITY : readBacksOf(turn, state).length
    const [chief] = done.toSorted((one, other) => length(other) - length(one))
    if (chief) return goBack(pack, state, chief.id, false)
    const isLeft = isPassed && isAhead(state, activity)
    if (isLeft && (isNamed || turns.length > 0)) return enter(pack, state, floorOf(pack, state, place))
  }
  return undefined
}

/** No item of that name: what is open stays, and it is no miss of it. */
export function recheckUnknown(pack: Pack, state: RunState, by: By): Step {
  const soon = tooSoonToAsk(pack, state, by)
  return soon ?? askAgain(pack, { ...state, last: undefined }, [say.recheckWhat()])
}

/** In a list the item before, elsewhere what was closed last. */
export function goneBack(pack: Pack, state: RunState): Step {
  return goBack(pack, state, before(pack, state), false)
}

function before(pack: Pack, state: RunState): string | undefined {
  const { floor } = state
  if (floor.at === 'item') {
    const items = itemsOf(listById(pack, floor.list), state)
    return items[items.findIndex((item) => item.id === floor.item) - 1]?.id
  }
  return state.closed.at(-1)
}

function goBack(pack: Pack, state: RunState, id: string | undefined, isFollowed: boolean): Step {
  if (id === undefined) return listenAfter(pack, state, [], { prompt: true })
  const places = agenda(pack, state)
  const talk = places.find(({ activity }) =>
    activity.type === 'exchange' ? activity.turns.some((turn) => turn.id === id) : activity.id === id,
  )
  if (!talk) return toItem(pack, state, id)
  const floor = floorOf(pack, state, talk)
  if (floor.at === 'briefing') {
    const briefingsClosed = state.briefingsClosed.filter((one) => one !== id)
    const closed = state.closed.filter((one) => one !== id)
    return enter(pack, { ...state, briefingsClosed, closed }, floor)
  }
  return toTurn(pack, { ...state, floor, question: undefined, floorListenId: state.listenId + 1 }, id, isFollowed)
}

/** What was read back is read back again, or called again where there is nothing to read back. */
function toTurn(pack: Pack, state: RunState, id: string, isFollowed: boolean): Step {
  const { turn } = findTurn(pack, id)
  const elements = readBacksOf(turn, state)
  const open = reopenTurn(state, turn, {
    status: elements.length > 0 ? 'said' : 'ahead',
    partsSoFar: isFollowed ? elements.flatMap((element) => [...partNames(element).all]) : [],
  })
  return listenAfter(pack, open, [say.openAgain([turn.label])], { prompt: !isFollowed })
}

/** An item that was closed, or left open, is asked for again; a list that was complete or gone on from is neither any more. */
function toItem(pack: Pack, state: RunState, id: string): Step {
  const { list } = findItem(pack, id)
  const reopened = withItem(state, id, { status: isClosed(state, id) ? 'reopened' : 'open' })
  const { complete, revoked } = listState(reopened, list.id)
  const next = withList(reopened, list.id, { complete: false, revoked: revoked || complete, suspended: false })
  const words = complete ? [say.revoked(list.name)] : []
  return enter(pack, next, { at: 'item', list: list.id, item: id }, { words })
}
