/**
 * Whose turn it is to speak: from a floor to what Otherseat says there and what it listens for then.
 * Every listening turn has a number; what was said before the floor changed belongs to an older one.
 */

import { sourceWords } from '../../figures/sources.ts'
import type { Value } from '../../kinds/kind.ts'
import type { Flow, Step as FlowStep, Item, Pack } from '../../pack/checklist.ts'
import type { Exchange } from '../../pack/exchange.ts'
import { figuresFor, findItem, findLine, listById, saidFigures, stepsOf } from '../../pack/place.ts'
import { restsOf } from '../../pack/rests.ts'
import { partNames } from '../../response/readBack.ts'
import { readBacksOf, type Speech, stationWords } from '../talk/radio.ts'
import { callableTurns, exchangeAt, openExchange, pendingTurn, talkAt, turnState } from '../talk/talk.ts'
import { nextCall, watchAt, watchById, watchState } from '../watch/watchTiming.ts'
import type { Effect, ToneName } from './events.ts'
import { hearableAt } from './hearableAt.ts'
import { say } from './phrases.ts'
import type { Floor, ItemState, ListState, RunState, TurnState } from './state.ts'

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
  looks: 0,
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

/** The pilot closed this one last: "correction" means it. */
export function lastClosed(state: RunState, id: string): RunState {
  return { ...state, closed: [...state.closed.filter((other) => other !== id), id] }
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

/** The flow that has the floor. */
export function flowAt(pack: Pack, floor: Floor): Flow | undefined {
  const activity = floor.at === 'flow' ? pack.phases[floor.phase]?.activities[floor.activity] : undefined
  return activity?.type === 'flow' ? activity : undefined
}

/** Steps of a flow that are to be done: those open again where it was done once. */
export function openSteps(flow: Flow, state: RunState): FlowStep[] {
  const steps = stepsOf(flow, state.situation)
  const again = steps.filter(({ id }) => state.stepsAgain.includes(id))
  if (again.length > 0 || state.flowsClosed.includes(flow.id)) return again
  return steps.filter(({ id }) => !state.stepsDone.includes(id))
}

function flowWords(flow: Flow, phase: string, state: RunState): string {
  const open = openSteps(flow, state)
  const isAgain = open.some(({ id }) => state.stepsAgain.includes(id))
  const isFromMemory = state.settings.flows === 'memory'
  if (state.readingFlow && open[0]) return say.step(open[0].text)
  if (isAgain) return say.stepsAgain(flow.name, isFromMemory ? [] : open.map(({ text }) => text))
  const words = say.phase(phase, flow.name)
  return state.settings.flows === 'spoken' && open[0] ? `${words} ${say.step(open[0].text)}` : words
}

function watchWords(pack: Pack, state: RunState): string {
  const watch = watchAt(pack, state.floor)
  if (!watch) return ''
  const own = watchState(state, watch.id)
  if (own.status === 'stopped') return say.wayBack(undefined)
  const next = own.status === 'running' ? nextCall(watch, own) : undefined
  if (next) return say.challenge(next.call.label)
  return watch.hold === undefined ? say.watch(watch.name) : say.held(watch.name, watch.hold)
}

function floorWords(pack: Pack, state: RunState): string {
  const { floor } = state
  switch (floor.at) {
    case 'flow': {
      const flow = flowAt(pack, floor)
      return flow ? flowWords(flow, pack.phases[floor.phase]?.name ?? '', state) : ''
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
      return watchWords(pack, state)
    case 'exchange': {
      const exchange = exchangeAt(pack, floor)
      const open = exchange ? callableTurns(exchange, state) : []
      return say.watch(open.length === 1 ? (open[0]?.label ?? '') : (exchange?.name ?? ''))
    }
    case 'briefing':
      return say.watch(talkAt(pack, floor)?.name ?? '')
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
    case 'reading': {
      const label = pack.figures.declarations[question.figure]?.label ?? question.figure
      return say.readMe(label, sourceWords(question.source))
    }
    case 'warnings':
      return say.warnings()
    case 'order':
      return say.orderDiffers(question.heard)
    case 'callOrder': {
      const { calls } = watchById(pack, question.watch)
      const label = (id: string) => calls.find((call) => call.id === id)?.label ?? id
      return say.callOrder(label(question.call.id), label(question.missing))
    }
    case 'pass':
      if (question.affirmed) return say.onceMore()
      return say.pass(findItem(pack, question.item).item.challenge, question.reason)
  }
}

/** What Otherseat says to put the open question, item, line, flow or list. */
export function promptWords(pack: Pack, state: RunState): string {
  return questionWords(pack, state) ?? floorWords(pack, state)
}

export interface TurnOptions {
  /** Say the open item (or question, line ...) after the other words. */
  readonly prompt?: boolean
  readonly promptAfterMs?: number
  /** What other voices say before that; the screen does not hold it. */
  readonly stations?: readonly Speech[]
  readonly tone?: ToneName
}

/** Says something, then listens anew. */
export function turn(pack: Pack, state: RunState, words: readonly string[], options: TurnOptions = {}): Step {
  const asked = options.prompt ? readBackAsked(pack, state) : undefined
  const prompt = !options.prompt ? '' : asked === undefined ? promptWords(pack, state) : asked.words
  const text = [...words, prompt].filter((part) => part).join(' ')
  const order = state.order + 1
  const stations = [...(options.stations ?? []), ...(asked?.stations ?? [])]
  // Where a station alone has spoken, Otherseat's words of before are not the last any more.
  const next = { ...state, order, said: text || (stations.length > 0 ? '' : state.said) }
  const effects: Effect[] = [{ type: 'shut' }, { type: 'stopTimers' }]
  if (options.tone) effects.push({ type: 'tone', tone: options.tone })
  effects.push(...stations.map((one): Effect => ({ type: 'speak', ...one })))
  if (text) effects.push({ type: 'speak', text, role: 'otherseat' })
  effects.push({ type: 'listen', order, hearable: hearableAt(pack, next) }, ...timers(next, options.promptAfterMs))
  return { state: next, effects }
}

/**
 * A station that waits for its read-back asks for it itself, by the names of what is missing; what a broadcast said
 * Otherseat asks for. Undefined where none is awaited.
 */
function readBackAsked(
  pack: Pack,
  state: RunState,
): { readonly stations: readonly Speech[]; readonly words: string } | undefined {
  const exchange = state.question || state.standingBy ? undefined : exchangeAt(pack, state.floor)
  const pending = exchange && pendingTurn(exchange, state)
  if (!exchange || !pending) return undefined
  const { held } = turnState(state, pending.id)
  const missing = readBacksOf(pending, state).filter((element) =>
    [...partNames(element).required].some((name) => !held.includes(name)),
  )
  if (missing.length === 0) return undefined
  const labels = missing.map(({ label }) => label)
  return exchange.station.role === 'broadcast'
    ? { stations: [], words: say.topics(labels) }
    : { stations: stationWords(pack, state, exchange, pending).readBack(labels), words: '' }
}

/** Waiting at a line, in a flow or standing by is no silence: only an open item is asked for again. */
export function timers(state: RunState, promptAfterMs = PROMPT_AFTER_MS): Effect[] {
  const isPending = ({ status }: TurnState) => status === 'said' || status === 'slipped'
  const isReadBack = state.floor.at === 'exchange' && Object.values(state.turns).some(isPending)
  if (state.standingBy || (state.floor.at !== 'item' && !state.question && !isReadBack)) return []
  const { order } = state
  const after = (timer: 'prompt' | 'tone', ms: number): Effect => ({
    type: 'startTimer',
    timer,
    ms,
    happening: { type: 'silent', order, after: timer },
  })
  // Silence is answered once, also where other speech lies in it.
  const prompt = state.promptedOrder === order ? [] : [after('prompt', promptAfterMs)]
  return [...prompt, after('tone', TONE_AFTER_MS)]
}

/** Goes to a floor: says what led there, then puts what is there. */
export function enter(
  pack: Pack,
  state: RunState,
  floor: Floor,
  words: readonly string[],
  tone?: 'tick',
  speech: readonly Speech[] = [],
): Step {
  const isSpoken = floor.at === 'flow' && state.settings.flows === 'spoken'
  let next: RunState = { ...state, floor, question: undefined, floorOrder: state.order + 1, readingFlow: false }
  const exchange = exchangeAt(pack, floor)
  const isNew = exchangeAt(pack, state.floor)?.id !== exchange?.id
  if (exchange) return enterExchange(pack, next, exchange, isNew, words, tone, speech)
  if (floor.at === 'item') {
    next = withItem(next, floor.item, {
      challengeRevision: state.revision,
      held: [],
      begun: {},
      sayAgains: 0,
      implausible: {},
    })
  }
  const step = turn(pack, next, words, { prompt: true, stations: speech, ...(tone && { tone }) })
  return isSpoken ? { ...step, state: { ...step.state, readingFlow: true } } : step
}

/** The station speaks first where it begins; the exchange may be over with that. */
function enterExchange(
  pack: Pack,
  before: RunState,
  exchange: Exchange,
  isNew: boolean,
  words: readonly string[],
  tone: 'tick' | undefined,
  speech: readonly Speech[],
): Step {
  const wasAwaited = pendingTurn(exchange, before) !== undefined
  const { state, speech: own, taken } = openExchange(pack, before, exchange)
  const isAwaited = pendingTurn(exchange, state) !== undefined
  const isPrompted = exchange.order === 'fixed' && exchange.station.role !== 'otherseat'
  const step = turn(pack, state, words, {
    stations: [...speech, ...own],
    // Where the order of the turns is the pilot's, or both sit side by side, one prompt is enough.
    prompt: wasAwaited || (!(isAwaited || taken) && (isNew || isPrompted)),
    ...(tone && { tone }),
  })
  if (!taken) return step
  return { state: step.state, effects: [...step.effects, { type: 'takeDown', ...taken }] }
}
