/** Roles changed: the pilot challenges, Otherseat's simulated seat answers, and the pilot goes on from that or objects. */

import type { Item, List, Pack } from '../../pack/checklist.ts'
import { entriesOf, findItem, itemsOf, listById } from '../../pack/place.ts'
import type { RunEvent } from '../core/events.ts'
import { unmet } from '../core/interlocks.ts'
import { sayAndListen } from '../core/listening.ts'
import { advance } from '../core/moving.ts'
import { notYet } from '../core/notYet.ts'
import { isClosed, restedOn, withItem } from '../core/progress.ts'
import type { RunState, Step } from '../core/state.ts'
import { closeItem } from '../list/answering.ts'
import { partnerOf, withPartnerState } from './partner.ts'
import { canAnswer, plannedFor, seatWords } from './seat.ts'

/** Items of the open list that may be challenged now: those that are open, down to a line that is not cleared. */
export function challengeable(pack: Pack, state: RunState): Item[] {
  const { floor } = state
  if (floor.at !== 'item') return []
  const entries = entriesOf(listById(pack, floor.list), state)
  const line = entries.findIndex((entry) => entry.type === 'line' && !state.cleared.includes(entry.clearance))
  return (line < 0 ? entries : entries.slice(0, line)).filter(
    (entry): entry is Item => entry.type === 'item' && (!isClosed(state, entry.id) || entry.id === floor.item),
  )
}

/** Going on to the next item accepts the answer to the one before. Throws where the pack does not have the item. */
export function challenged(pack: Pack, before: RunState, event: RunEvent<'challenged'>): Step {
  const { item, list } = findItem(pack, event.item)
  const { answered } = partnerOf(before)
  if (before.floor.at !== 'item' || before.floor.list !== list.id) return { state: before, effects: [] }
  const held = answered === undefined ? undefined : findItem(pack, answered).item
  const blockedBy = held && unmet(pack, before, held.interlocks, event.t)
  if (held && blockedBy) return notYet(pack, before, held.id, blockedBy)
  const accepted = held && held.id !== item.id ? close(before, held, event) : before
  return answerTo(pack, accepted, list, item)
}

function answerTo(pack: Pack, before: RunState, list: List, item: Item): Step {
  const at: RunState = {
    ...withItem(before, item.id, { challengeRevision: before.revision, partsSoFar: [], begun: {} }),
    floor: { at: 'item', list: list.id, item: item.id },
    floorListenId: before.listenId + 1,
    standingBy: false,
    // What was heard before is of another challenge.
    last: undefined,
  }
  // What its seat cannot know is put to the pilot as ever.
  const { answered: _, ...rest } = partnerOf(at)
  if (!canAnswer(pack, at, item)) return sayAndListen(pack, { ...at, partner: rest }, [], { prompt: true })
  const words = seatWords(pack, at, item, [], plannedFor(at, item.id))
  return sayAndListen(pack, withPartnerState(at, { answered: item.id }), [words])
}

/** "Checked": the answer stands, and the next challenge is the pilot's. */
export function accepted(pack: Pack, before: RunState, event: RunEvent<'accepted'>): Step {
  if (partnerOf(before).answered !== event.item) return { state: before, effects: [] }
  const { item, list } = findItem(pack, event.item)
  const blockedBy = unmet(pack, before, item.interlocks, event.t)
  if (blockedBy) return notYet(pack, before, item.id, blockedBy)
  return advance(pack, close({ ...before, standingBy: false, last: undefined }, item, event), list.id, { tone: 'tick' })
}

/** Calling the next list takes the last answer of this one for right, as going on to the next item does. */
export function lastAccepted(pack: Pack, before: RunState, event: RunEvent<'listCalled'>): RunState {
  const { answered } = partnerOf(before)
  if (answered === undefined || before.question) return before
  const { list, item } = findItem(pack, answered)
  const isLast = itemsOf(list, before).every(({ id }) => id === item.id || isClosed(before, id))
  if (!isLast || list.id === event.list || unmet(pack, before, item.interlocks, event.t)) return before
  return accepted(pack, before, { ...event, type: 'accepted', item: item.id }).state
}

function close(state: RunState, item: Item, { evidence }: RunEvent<'challenged' | 'accepted'>): RunState {
  const { answered: _, ...rest } = partnerOf(state)
  const { revision } = state
  const done = {
    status: 'done',
    by: evidence.by,
    seat: 'otherseat',
    expected: restedOn(item, state),
    revision,
  } as const
  return closeItem({ ...state, partner: rest }, item, done)
}
