/**
 * Says something and listens anew, or goes to another place and puts what is there. Every listening turn has a number;
 * what was said before the place changed belongs to an older one.
 */

import type { Pack, Watch } from '../../pack/checklist.ts'
import type { Exchange } from '../../pack/exchange.ts'
import { partNames } from '../../response/readBack.ts'
import { readBacksOf, type Speech, stationWords, voiced } from '../talk/radio.ts'
import { exchangeAt, isColleagues, openExchange, pendingTurn, turnState } from '../talk/talk.ts'
import { sayOnce } from '../watch/saidOnce.ts'
import { watchAt, watchState } from '../watch/watchTiming.ts'
import { runningClocks } from './clocks.ts'
import type { Effect, ToneName } from './events.ts'
import { hearableAt } from './hearableAt.ts'
import { stamped } from './interlocks.ts'
import { ownQuestion } from './ownQuestion.ts'
import { say } from './phrases.ts'
import { withItem } from './progress.ts'
import { promptWords } from './prompts.ts'
import type { ExchangeTurnState, Floor, RunState, Step } from './state.ts'

/** Silence before the challenge is said once more, and before a soft tone. */
const PROMPT_AFTER_MS = 8_000
/** A clearance is looked through once before it is read back; common practice, no source. */
const READ_BACK_AFTER_MS = 12_000
export const PROMPT_AFTER_MISS_MS = 20_000
const TONE_AFTER_MS = 60_000

export interface SpeechOptions {
  /** Say the open item (or question, line ...) after the other words. */
  readonly prompt?: boolean
  readonly promptAfterMs?: number
  /** What other voices say before that; the screen does not hold it. */
  readonly stations?: readonly Speech[]
  /** They come after Otherseat's own words instead. */
  readonly stationsLast?: boolean
  readonly tone?: ToneName
}

/** Says something, then listens anew. */
export function sayAndListen(pack: Pack, state: RunState, words: readonly string[], options: SpeechOptions = {}): Step {
  // Nothing is asked while it stands by: no answer would be taken.
  const isPut = options.prompt && (!state.standingBy || state.question !== undefined)
  const asked = isPut ? readBackAsked(pack, state) : undefined
  const prompt = !isPut ? '' : asked === undefined ? promptWords(pack, state) : asked.words
  const text = [...words, prompt].filter((part) => part).join(' ')
  const listenId = state.listenId + 1
  const stations = [...(options.stations ?? []), ...(asked?.stations ?? [])]
  // Where a station alone has spoken, Otherseat's words of before are not the last any more.
  const next: RunState = { ...state, listenId, said: text || (stations.length > 0 ? '' : state.said) }
  const effects: Effect[] = [{ type: 'shut' }, { type: 'stopTimers' }]
  if (options.tone) effects.push({ type: 'tone', tone: options.tone })
  const voices = stations.map(voiced)
  const own: Effect[] = text ? [{ type: 'speak', text, role: 'otherseat' }] : []
  effects.push(...(options.stationsLast ? [...own, ...voices] : [...voices, ...own]))
  effects.push({ type: 'listen', listenId, hearable: hearableAt(pack, next) }, ...timers(next, options.promptAfterMs))
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
  const { partsSoFar, status } = turnState(state, pending.id)
  const missing = readBacksOf(pending, state).filter((element) =>
    [...partNames(element).required].some((name) => !partsSoFar.includes(name)),
  )
  const station = stationWords(pack, state, exchange, pending)
  // The colleague reads it back, once it has been heard.
  if (status === 'relaying') return { stations: station.again(), words: '' }
  if (status === 'relayed' || (status === 'slipped' && isColleagues(state, exchange)))
    return { stations: [], words: '' }
  // All of it is right, and nobody has said whose it is.
  const isUnsigned = missing.length === 0 && partsSoFar.length > 0 && exchange.station.role === 'controller'
  if (isUnsigned) return { stations: station.sayAgainCallSign(), words: '' }
  if (missing.length === 0) return undefined
  const labels = missing.map(({ label }) => label)
  if (exchange.station.role === 'broadcast') return { stations: [], words: say.topics(labels) }
  // What has to be in it is the pilot's to know before the first try.
  const isTried = partsSoFar.length > 0 || (state.last?.item === pending.id && state.last.of === 'readBack')
  return { stations: station.readBack(isTried ? labels : []), words: '' }
}

/**
 * Silence counts where an item or a read-back is owed. Waiting at a line, in a flow or standing by is none, nor is
 * looking for what an open question asks: it stands on the screen, and "say again" puts it once more.
 */
export function timers(state: RunState, promptAfterMs?: number): Effect[] {
  const isPending = ({ status }: ExchangeTurnState) => status === 'said' || status === 'slipped'
  const isReadBack = state.floor.at === 'exchange' && Object.values(state.turns).some(isPending)
  if (state.standingBy || state.question || (state.floor.at !== 'item' && !isReadBack)) return []
  const after = (timer: 'prompt' | 'tone', ms: number): Effect => ({
    type: 'startTimer',
    timer,
    ms,
    event: { type: 'silent', order: state.listenId, after: timer },
  })
  // Silence is answered once, also where other speech lies in it.
  const prompt =
    state.promptedListenId === state.listenId
      ? []
      : [after('prompt', promptAfterMs ?? (isReadBack ? READ_BACK_AFTER_MS : PROMPT_AFTER_MS))]
  return [...prompt, after('tone', TONE_AFTER_MS)]
}

/** What comes with going to a floor. */
export interface Arrival {
  /** What led there, said first. */
  readonly words?: readonly string[]
  readonly tone?: 'tick'
  /** What other voices say before that. */
  readonly stations?: readonly Speech[]
}

/** Goes to a floor: says what led there, then puts what is there. Throws where the pack does not have it. */
export function enter(pack: Pack, before: RunState, floor: Floor, arrival: Arrival = {}): Step {
  const { words = [], tone, stations = [] } = arrival
  const { interrupted, ...rest } = before
  const state: RunState = {
    ...rest,
    // Back where the run was, it goes its way.
    ...(interrupted !== undefined && !isAt(pack, floor, interrupted) && { interrupted }),
    floor,
    question: ownQuestion(before, floor),
    floorListenId: before.listenId + 1,
    readingFlow: false,
  }
  const exchange = exchangeAt(pack, floor)
  if (exchange) {
    const isNew = exchangeAt(pack, before.floor)?.id !== exchange.id
    return enterExchange(pack, state, exchange, isNew, arrival)
  }
  const watch = watchAt(pack, floor)
  if (watch) return enterWatch(pack, state, watch, arrival)
  const next = floor.at === 'item' ? challenged(state, floor.item) : state
  const step = sayAndListen(pack, next, words, { prompt: true, stations, ...(tone && { tone }) })
  const isReadOut = floor.at === 'flow' && state.settings.flows === 'spoken'
  return isReadOut ? { ...step, state: { ...step.state, readingFlow: true } } : step
}

/** Whether this activity has the floor. */
function isAt(pack: Pack, floor: Floor, id: string): boolean {
  if ('list' in floor) return floor.list === id
  return 'activity' in floor && pack.phases[floor.phase]?.activities[floor.activity]?.id === id
}

/** A start that has to wait for a time of which the end is announced is put by that announcement. */
function enterWatch(pack: Pack, before: RunState, watch: Watch, { words = [], tone, stations = [] }: Arrival): Step {
  const now = stamped(before, before.t)
  const isPutLater = runningClocks(pack, now).some(({ of, due }) => of === watch.id && due !== undefined)
  const isAhead = watchState(before, watch.id).status === 'ahead'
  const { state, words: once } = isAhead ? sayOnce(before, watch) : { state: before, words: [] }
  const prompt = isPutLater ? [] : [promptWords(pack, state)]
  return sayAndListen(pack, state, [...words, ...prompt, ...once], { stations, ...(tone && { tone }) })
}

/** Put anew: what was said of it before does not count. */
function challenged(state: RunState, item: string): RunState {
  const { revision: challengeRevision } = state
  return withItem(state, item, { challengeRevision, partsSoFar: [], begun: {}, sayAgains: 0, implausible: {} })
}

/** The station speaks first where it begins; the exchange may be over with that. */
function enterExchange(pack: Pack, before: RunState, exchange: Exchange, isNew: boolean, arrival: Arrival): Step {
  const { words = [], tone, stations = [] } = arrival
  const wasAwaited = pendingTurn(exchange, before) !== undefined
  const { state, speech, given } = openExchange(pack, before, exchange)
  const isAwaited = pendingTurn(exchange, state) !== undefined
  const isPrompted = exchange.order === 'fixed' && exchange.station.role !== 'otherseat'
  const step = sayAndListen(pack, state, words, {
    stations: [...stations, ...speech],
    // Where the order of the turns is the pilot's, or both sit side by side, one prompt is enough.
    prompt: wasAwaited || (!(isAwaited || given) && (isNew || isPrompted)),
    ...(tone && { tone }),
  })
  return given ? { state: step.state, effects: [...step.effects, { type: 'recordFromStation', ...given }] } : step
}
