/**
 * Whose turn it is to speak: from a floor to what Otherseat says there and what it listens for then.
 * Every listening turn has a number; what was said before the floor changed belongs to an older one.
 */

import type { Hearable } from '../hearing/hearable.ts'
import type { Value } from '../kinds/kind.ts'
import type { Item, Pack } from './checklist.ts'
import type { Effect } from './events.ts'
import { say } from './phrases.ts'
import { figuresFor, findItem, findLine, listById, saidFigures } from './place.ts'
import { restsOf } from './rests.ts'
import type { Floor, ItemState, ListState, RunState } from './state.ts'

export interface Step {
  readonly state: RunState
  readonly effects: readonly Effect[]
}

/** Silence before the challenge is said once more, and before a soft tone. */
export const PROMPT_AFTER_MS = 8_000
export const PROMPT_AFTER_MISS_MS = 20_000
export const TONE_AFTER_MS = 60_000

const NEW_ITEM: ItemState = {
  status: 'open',
  expected: {},
  revision: 0,
  challengeRevision: 0,
  misses: 0,
  sayAgains: 0,
  held: [],
  begun: {},
  given: false,
  implausible: {},
}
const NEW_LIST: ListState = { called: false, complete: false, revoked: false, suspended: false, onPreliminary: false }

export function itemState(state: RunState, id: string): ItemState {
  return state.items[id] ?? NEW_ITEM
}
export function listState(state: RunState, id: string): ListState {
  return state.lists[id] ?? NEW_LIST
}
export function withItem(state: RunState, id: string, change: Partial<ItemState>): RunState {
  return { ...state, items: { ...state.items, [id]: { ...itemState(state, id), ...change } } }
}
export function withList(state: RunState, id: string, change: Partial<ListState>): RunState {
  return { ...state, lists: { ...state.lists, [id]: { ...listState(state, id), ...change } } }
}

/** Labels of figures that the answer needs and that have no value yet. */
export function lacking(pack: Pack, state: RunState, item: Item): string[] {
  const names = saidFigures(item, state.situation)
  const present = figuresFor(pack, state.values, names)
  return names.filter((name) => !present[name]).map((name) => pack.figures.declarations[name]?.label ?? name)
}

/** Spoken values, as they are now, that an answer to the item would rest on. */
export function restedOn(item: Item, state: RunState): Record<string, Value> {
  return Object.fromEntries(
    restsOf(item, state.situation).flatMap((name) => {
      const value = state.values[name]
      return value === undefined ? [] : [[name, value]]
    }),
  )
}

function floorWords(pack: Pack, state: RunState): string {
  const { floor } = state
  switch (floor.at) {
    case 'flow': {
      const phase = pack.phases[floor.phase]
      return say.phase(phase?.name ?? '', phase?.activities[floor.activity]?.name ?? '')
    }
    case 'call':
      return say.callFor(pack.phases[floor.phase]?.activities[floor.activity]?.name ?? '')
    case 'item': {
      const { item } = findItem(pack, floor.item)
      const missing = lacking(pack, state, item)
      return missing[0] ? say.noFigure(missing[0]) : say.challenge(item.challenge)
    }
    case 'line': {
      const list = listById(pack, floor.list)
      return say.toTheLine(list.name, findLine(list, floor.line).label)
    }
    case 'watch':
      return say.watch(pack.phases[floor.phase]?.activities[floor.activity]?.name ?? '')
    case 'exchange':
    case 'briefing':
      return say.watch(pack.phases[floor.phase]?.activities[floor.activity]?.name ?? '')
    case 'end':
      return say.allComplete()
  }
}

function questionWords(pack: Pack, state: RunState): string | undefined {
  const { question } = state
  switch (question?.about) {
    case undefined:
      return undefined
    case 'outOfOrder':
      return say.outOfOrder(question.next)
    case 'finalFiguresIn':
      return say.finalFiguresIn()
    case 'reading':
      return say.readMe(pack.figures.declarations[question.figure]?.label ?? question.figure)
    case 'warnings':
      return say.warnings()
    case 'order':
      return say.orderDiffers(question.heard)
    case 'pass':
      return say.pass(findItem(pack, question.item).item.challenge, question.reason)
  }
}

/** What Otherseat says to put the open question, item, line, flow or list. */
export function promptWords(pack: Pack, state: RunState): string {
  return questionWords(pack, state) ?? floorWords(pack, state)
}

/** What to listen for: shapes of the open item, never its values. */
export function hearableAt(pack: Pack, state: RunState): Hearable {
  const { floor, question } = state
  if (question?.about === 'reading') {
    const declared = pack.figures.declarations[question.figure]
    return { shapes: declared ? [declared.spec] : [], yesNo: false }
  }
  if (question || floor.at !== 'item') return { shapes: [], yesNo: question !== undefined }
  const { item } = findItem(pack, floor.item)
  const shapes = saidFigures(item, state.situation).flatMap((name) => pack.figures.declarations[name]?.spec ?? [])
  return { shapes, yesNo: false }
}

export interface TurnOptions {
  /** Say the open item (or question, line ...) after the other words. */
  readonly prompt?: boolean
  readonly promptAfterMs?: number
  readonly tone?: 'tick' | 'attention' | 'soft'
}

/** Says something, then listens anew. */
export function turn(pack: Pack, state: RunState, words: readonly string[], options: TurnOptions = {}): Step {
  const text = [...words, options.prompt ? promptWords(pack, state) : ''].filter((part) => part).join(' ')
  const order = state.order + 1
  const next = { ...state, order, said: text || state.said }
  const effects: Effect[] = [{ type: 'shut' }, { type: 'stopTimers' }]
  if (options.tone) effects.push({ type: 'tone', tone: options.tone })
  if (text) effects.push({ type: 'speak', text, role: 'otherseat' })
  effects.push({ type: 'listen', order, hearable: hearableAt(pack, next) }, ...timers(next, options.promptAfterMs))
  return { state: next, effects }
}

/** Waiting at a line, in a flow or standing by is no silence: only an open item is asked for again. */
export function timers(state: RunState, promptAfterMs = PROMPT_AFTER_MS): Effect[] {
  if (state.standingBy || (state.floor.at !== 'item' && !state.question)) return []
  return [
    {
      type: 'startTimer',
      timer: 'prompt',
      ms: promptAfterMs,
      happening: { type: 'silent', order: state.order, after: 'prompt' },
    },
    {
      type: 'startTimer',
      timer: 'tone',
      ms: TONE_AFTER_MS,
      happening: { type: 'silent', order: state.order, after: 'tone' },
    },
  ]
}

/** Goes to a floor: says what led there, then puts what is there. */
export function enter(pack: Pack, state: RunState, floor: Floor, words: readonly string[], tone?: 'tick'): Step {
  let next: RunState = { ...state, floor, question: undefined, floorOrder: state.order + 1 }
  if (floor.at === 'item') {
    next = withItem(next, floor.item, {
      challengeRevision: state.revision,
      held: [],
      begun: {},
      sayAgains: 0,
      implausible: {},
    })
  }
  return turn(pack, next, words, { prompt: true, ...(tone && { tone }) })
}
