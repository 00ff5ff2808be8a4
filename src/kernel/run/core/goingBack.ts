/** "Correction", "go back one", "recheck": what was closed last, the item before or the one that is named is open again. */

import type { Pack } from '../../pack/checklist.ts'
import { agenda, findItem, itemsOf, listById, listsOf } from '../../pack/place.ts'
import { partNames } from '../../response/readBack.ts'
import { readBacksOf } from '../talk/radio.ts'
import { briefingsOf, findTurn, reopenTurn } from '../talk/talk.ts'
import { askAgain, tooSoonToAsk } from './askingAgain.ts'
import type { By } from './events.ts'
import { enter, sayAndListen as listenAfter } from './listening.ts'
import { floorOf, isAhead } from './moving.ts'
import { say } from './phrases.ts'
import { isClosed, itemState, listState, withItem, withList } from './progress.ts'
import type { RunState, Step } from './state.ts'

/** `rest`: what was said after "correction" follows at once; what it does not say again stands. */
export function corrected(pack: Pack, state: RunState, rest: string): Step {
  return goBack(pack, state, state.closed.at(-1), rest !== '')
}

/**
 * The briefing of that name, or the item of that challenge that was closed last, else one left open, else the exchange or
 * the call of that name; where there is none, the open place is put again.
 */
export function rechecked(pack: Pack, before: RunState, name: string): Step {
  const state = { ...before, question: undefined, standingBy: false }
  const briefing = briefingsOf(pack).find((one) => one.name === name && state.briefingsClosed.includes(one.id))
  if (briefing) return goBack(pack, state, briefing.id, false)
  const ids = listsOf(pack).flatMap((list) => itemsOf(list, state))
  const named = ids.filter((item) => item.challenge === name).map(({ id }) => id)
  const asked = named.filter((id) => isClosed(state, id))
  const left = named.find((id) => itemState(state, id).status === 'leftOpen')
  const id = state.closed.findLast((one) => asked.includes(one)) ?? asked.at(-1) ?? left
  if (id !== undefined) return toItem(pack, state, id)
  return toTalk(pack, state, name) ?? listenAfter(pack, before, [], { prompt: true })
}

/** What was said last of an exchange or of a call is said again; one that is still to be made is made. */
function toTalk(pack: Pack, state: RunState, name: string): Step | undefined {
  const talks = agenda(pack, state).filter(
    ({ activity }) => activity.type === 'exchange' || activity.type === 'briefing',
  )
  for (const place of talks) {
    const { activity } = place
    const isNamed = activity.name === name
    const turns = activity.type === 'exchange' ? activity.turns.filter(({ label }) => isNamed || label === name) : []
    const done = turns.findLast(({ id }) => state.turns[id]?.status === 'done')
    if (done) return goBack(pack, state, done.id, false)
    if ((isNamed || turns.length > 0) && isAhead(state, activity))
      return enter(pack, state, floorOf(pack, state, place))
  }
  return undefined
}

/** No item of that name: what is open stays, and it is no miss of it. */
export function recheckUnknown(pack: Pack, state: RunState, by: By): Step {
  return tooSoonToAsk(pack, state, by) ?? askAgain(pack, state, [say.recheckWhat()])
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
