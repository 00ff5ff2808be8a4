/** Where an exchange stands, and what its station says of its own accord when it has the floor. */

import { holds } from '../../figures/condition.ts'
import type { Value } from '../../kinds/kind.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { Briefing, Exchange, ExchangeTurn } from '../../pack/exchange.ts'
import type { Response } from '../../response/response.ts'
import { isFree } from '../core/interlocks.ts'
import type { ExchangeTurnState, Floor, RunState } from '../core/state.ts'
import { colleagueReadsBack } from '../partner/partner.ts'
import { callSignBeside } from './callSign.ts'
import { readBacksOf, type Speech, spokenIn, stationWords } from './radio.ts'
import { requiredOf } from './readBackWords.ts'
import { scripted } from './said.ts'

const AHEAD: ExchangeTurnState = { status: 'ahead', partsSoFar: [], begun: {}, misses: 0, sayAgains: 0, shown: false }

/** That of a turn ahead where nothing has happened with it. */
export const turnState = (state: RunState, id: string): ExchangeTurnState => state.turns[id] ?? AHEAD

export function withTurn(state: RunState, id: string, change: Partial<ExchangeTurnState>): RunState {
  return { ...state, turns: { ...state.turns, [id]: { ...turnState(state, id), ...change } } }
}

/** The exchange or briefing that has the floor. */
export function talkAt(pack: Pack, floor: Floor): Exchange | Briefing | undefined {
  const activity = 'activity' in floor ? pack.phases[floor.phase]?.activities[floor.activity] : undefined
  return activity?.type === 'exchange' || activity?.type === 'briefing' ? activity : undefined
}
/** The exchange that has the floor. */
export function exchangeAt(pack: Pack, floor: Floor): Exchange | undefined {
  const talk = talkAt(pack, floor)
  return talk?.type === 'exchange' ? talk : undefined
}
/** All of a pack, whatever applies. */
export function exchangesOf(pack: Pack): Exchange[] {
  return pack.phases.flatMap(({ activities }) => activities.filter((activity) => activity.type === 'exchange'))
}
/** All of a pack, whatever applies. */
export function briefingsOf(pack: Pack): Briefing[] {
  return pack.phases.flatMap(({ activities }) => activities.filter((activity) => activity.type === 'briefing'))
}
/** A log may only name what its pack has. */
export function findTurn(pack: Pack, id: string): { exchange: Exchange; turn: ExchangeTurn } {
  for (const exchange of exchangesOf(pack)) {
    const turn = exchange.turns.find((each) => each.id === id)
    if (turn) return { exchange, turn }
  }
  throw new Error(`pack ${pack.id} has no turn ${id}`)
}

/** Turns that apply and are not done. */
export function openTurns(exchange: Exchange, state: RunState): ExchangeTurn[] {
  return exchange.turns.filter((turn) => holds(turn.when, state) && turnState(state, turn.id).status !== 'done')
}

/** The colleague reads back here; with anybody but a controller the pilot does. */
export const isColleagues = (state: RunState, { station }: Exchange): boolean =>
  station.role === 'controller' && colleagueReadsBack(state)

/** What a turn waits for once its station has spoken. What need not be read back is the pilot's to acknowledge. */
export const awaited = (state: RunState, exchange: Exchange, turn: ExchangeTurn): 'said' | 'relaying' =>
  isColleagues(state, exchange) && requiredOf(turn, state).length > 0 ? 'relaying' : 'said'

/** Its read-back is the colleague's, and the controller has not heard it yet. */
export function isRelayed(state: RunState, turn: string): boolean {
  const { status } = turnState(state, turn)
  return status === 'relaying' || status === 'relayed'
}

/** The turn whose read-back is awaited. */
export function pendingTurn(exchange: Exchange, state: RunState): ExchangeTurn | undefined {
  return openTurns(exchange, state).find((turn) => turnState(state, turn.id).status !== 'ahead')
}

/** The pilot has said something here that is not settled: part of a call or a read-back, or a topic. */
export function isUnderWay(talk: Exchange | Briefing, state: RunState): boolean {
  if (talk.type === 'briefing') return talk.topics.some(({ id }) => state.topics[id] !== undefined)
  const begun = (turn: ExchangeTurn) =>
    turnState(state, turn.id).partsSoFar.length > 0 || turnState(state, turn.id).misses > 0
  return pendingTurn(talk, state) !== undefined || openTurns(talk, state).some(begun)
}

/** Something was said in it that counts: one of its turns is done or under way. */
export function isBegun(exchange: Exchange, state: RunState): boolean {
  return exchange.turns.some(({ id }) => turnState(state, id).status !== 'ahead') || isUnderWay(exchange, state)
}

/** Turns that the pilot may begin with a call now. */
export function callableTurns(exchange: Exchange, state: RunState): ExchangeTurn[] {
  const open = openTurns(exchange, state)
  return (exchange.order === 'fixed' ? open.slice(0, 1) : open).filter(({ calls }) => calls !== undefined)
}

/** The turn that the station begins by itself now. */
function stationsTurn(pack: Pack, exchange: Exchange, state: RunState): ExchangeTurn | undefined {
  const open = openTurns(exchange, state)
  const due = exchange.order === 'fixed' ? open.slice(0, 1) : open
  return due.find(
    ({ calls, interlocks = [] }) => calls === undefined && interlocks.every((one) => isFree(pack, state, one)),
  )
}

/** Values that a turn gives and that are not in the figures yet. */
export function unrecorded(turn: ExchangeTurn, state: RunState): Record<string, Value> {
  const given = scripted(state)
  return Object.fromEntries(
    turn.sets.flatMap((name) => {
      const value = given[name]
      return value === undefined || state.inputs?.values[name] === value ? [] : [[name, value]]
    }),
  )
}

export interface Opening {
  readonly state: RunState
  readonly speech: readonly Speech[]
  /** A turn that needs no read-back gave values: they come in before anything else. */
  readonly given?: { readonly turn: string; readonly values: Readonly<Record<string, Value>> }
}

/** The station says what it has to say of its own accord, until the pilot is to speak. */
export function openExchange(pack: Pack, before: RunState, exchange: Exchange): Opening {
  let state = before
  const speech: Speech[] = []
  while (!pendingTurn(exchange, state)) {
    const turn = stationsTurn(pack, exchange, state)
    if (!turn) break
    speech.push(...stationWords(pack, state, exchange, turn).whole())
    // The last word of an exchange is the pilot's: what need not be read back is acknowledged.
    if (readBacksOf(turn, state).length > 0 || openTurns(exchange, state).length === 1) {
      state = withTurn(state, turn.id, { status: awaited(state, exchange, turn), agreed: spokenIn(turn, state) })
      break
    }
    state = closeTurn(state, turn)
    const values = unrecorded(turn, state)
    if (Object.keys(values).length > 0) return { state, speech, given: { turn: turn.id, values } }
  }
  return { state, speech }
}

/** Orders between the seats that were given with one of these figures are to be given again. */
export function reopenOrders(pack: Pack, state: RunState, moved: readonly string[]): RunState {
  const orders = exchangesOf(pack).filter(({ station }) => station.role === 'otherseat')
  const overtaken = orders
    .flatMap(({ turns }) => turns)
    .filter(({ id, calls }) => {
      const isSaid = moved.some((name) => calls?.figures.includes(name))
      return isSaid && turnState(state, id).status === 'done'
    })
  return overtaken.reduce((next, { id }) => withTurn(next, id, { status: 'ahead', again: true }), state)
}

/** Done, with the values that it was agreed on; what it clears is cleared. */
export function closeTurn(state: RunState, turn: ExchangeTurn, change: Partial<ExchangeTurnState> = {}): RunState {
  const agreed = spokenIn(turn, state)
  const closed = withTurn(state, turn.id, {
    partsSoFar: [],
    begun: {},
    owed: [],
    withoutOwed: 0,
    again: false,
    agreed,
    ...change,
    status: 'done',
  })
  if (turn.clears === undefined) return closed
  return { ...closed, cleared: [...new Set([...closed.cleared, turn.clears])] }
}

/** A turn that was done, or begun, is open again, and what it cleared is not cleared any more. */
export function reopenTurn(state: RunState, turn: ExchangeTurn, change: Partial<ExchangeTurnState>): RunState {
  const { slip } = turnState(state, turn.id)
  // A wrong read-back that was called correct is over with the words that it was about.
  const over = slip === 'open' ? ({ slip: 'unnoticed' } as const) : {}
  const open = withTurn(state, turn.id, { partsSoFar: [], begun: {}, sayAgains: 0, ...over, ...change })
  return {
    ...open,
    closed: state.closed.filter((id) => id !== turn.id),
    cleared: state.cleared.filter((clearance) => clearance !== turn.clears),
  }
}

/** What may be said now: the calls that are open, or what is to be read back. */
export function saidInTalk(pack: Pack, state: RunState): Response[] {
  const talk = talkAt(pack, state.floor)
  if (!talk) return []
  return talk.type === 'briefing'
    ? talk.topics.filter(({ when }) => holds(when, state)).flatMap(({ say }) => say)
    : responsesTo(pack, talk, state)
}

function responsesTo(pack: Pack, exchange: Exchange, state: RunState): Response[] {
  const pending = pendingTurn(exchange, state)
  if (pending) {
    return [...readBacksOf(pending, state).map(({ response }) => response), callSignBeside(pack, exchange)]
  }
  return callableTurns(exchange, state).flatMap(({ calls }) => calls ?? [])
}

/** On the radio a station is addressed by its name. */
export const addressOf = ({ station }: Exchange): string =>
  station.role === 'controller' ? station.name.toLowerCase() : ''

/** An order is Otherseat's own to answer; a broadcast hears nobody, so Otherseat asks for what is missing. */
export const answers = ({ station }: Exchange): boolean =>
  station.role === 'controller' || station.role === 'groundCrew'
