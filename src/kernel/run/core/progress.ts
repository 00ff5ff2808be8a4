/** How far each item and list has come, and what an item rests on. */

import type { ComputedFigure } from '../../figures/model.ts'
import { unsettledFor } from '../../figures/unsettled.ts'
import type { Value } from '../../kinds/kind.ts'
import type { Item, Pack } from '../../pack/checklist.ts'
import { figuresDeciding, itemsOf, judgedFor, limitsOf, listById, saidFigures } from '../../pack/place.ts'
import { restsOf } from '../../pack/rests.ts'
import type { ItemState, ListState, RunState } from './state.ts'

const NEW_ITEM: ItemState = {
  status: 'open',
  expected: {},
  revision: 0,
  challengeRevision: 0,
  misses: 0,
  looks: 0,
  sayAgains: 0,
  partsSoFar: [],
  begun: {},
  revealed: false,
  implausible: {},
}
const NEW_LIST: ListState = { called: false, complete: false, revoked: false, suspended: false, onPreliminary: false }

/** That of a new item where nothing has happened with it. */
export function itemState(state: RunState, id: string): ItemState {
  return state.items[id] ?? NEW_ITEM
}
/** That of a list not called where nothing has happened with it. */
export function listState(state: RunState, id: string): ListState {
  return state.lists[id] ?? NEW_LIST
}
export function withItem(state: RunState, id: string, change: Partial<ItemState>): RunState {
  return { ...state, items: { ...state.items, [id]: { ...itemState(state, id), ...change } } }
}
export function withList(state: RunState, id: string, change: Partial<ListState>): RunState {
  return { ...state, lists: { ...state.lists, [id]: { ...listState(state, id), ...change } } }
}

/** The pilot closed this one last: "correction" means it. */
export function lastClosed(state: RunState, id: string): RunState {
  return { ...state, closed: [...state.closed.filter((other) => other !== id), id] }
}

/** A station gives it: nobody can enter it. */
export const isGivenByStation = ({ figures }: Pack, { script }: RunState, name: string): boolean =>
  script !== undefined && figures.declarations[name]?.given !== undefined

/** Labels of figures that the answer needs and that have no value yet. */
export function missingFigures(pack: Pack, state: RunState, item: Item): string[] {
  return missingNames(pack, state, item).map((name) => pack.figures.declarations[name]?.label ?? name)
}

/** Names of those figures; of a reading what limits it. */
export function missingNames(pack: Pack, state: RunState, item: Item): string[] {
  const names = saidFigures(item, state)
  const present = judgedFor(pack, state.values, names)
  const deciding = figuresDeciding(pack, item).filter((name) => state.values[name] === undefined)
  const missing = names.flatMap((name) => {
    if (present[name]) return []
    const limits = limitsOf(pack.figures, name).filter((limit) => state.values[limit] === undefined)
    return limits.length > 0 ? limits : [name]
  })
  return [...new Set([...deciding, ...missing])]
}

/** The figure whose sources differ, where that leaves the answer without a value. */
export function unsettledIn(pack: Pack, state: RunState, item: Item): ComputedFigure | undefined {
  const { inputs } = state
  if (!inputs) return undefined
  for (const name of missingNames(pack, state, item)) {
    const found = unsettledFor(pack.figures, inputs, name)
    if (found) return found
  }
  return undefined
}

/** In a late catch the pilot is to notice that sources differ: it is told when the item was answered. */
export const isToldOfDifference = (state: RunState, item: string): boolean =>
  !state.settings.lateCatch || itemState(state, item).sayAgains > 0

/** Spoken values, as they are now, that an answer to the item would rest on. */
export function restedOn(item: Item, state: RunState): Record<string, Value> {
  return Object.fromEntries(
    restsOf(item, state).flatMap((name) => {
      const value = state.values[name]
      return value === undefined ? [] : [[name, value]]
    }),
  )
}

export const isClosed = (state: RunState, item: string) => ['done', 'passed'].includes(itemState(state, item).status)

const FROM_MEMORY = 'memory items'

/** Not put, and not shown, before it was said or missed. */
export function isFromMemory({ id, memory }: Item, state: RunState): boolean {
  const { misses, sayAgains, status } = itemState(state, id)
  return memory === true && misses === 0 && sayAgains === 0 && status !== 'done' && status !== 'passed'
}

/** Challenges of a list that are not closed; what is said from memory is not named. */
export function openChallenges(pack: Pack, state: RunState, list: string): string[] {
  const names = itemsOf(listById(pack, list), state)
    .filter((item) => !isClosed(state, item.id))
    .map((item) => (isFromMemory(item, state) ? FROM_MEMORY : item.challenge))
  return names.filter((name, at) => name !== FROM_MEMORY || names.indexOf(name) === at)
}
