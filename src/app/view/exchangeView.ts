/**
 * What the run screen shows of an exchange or a briefing, made from pack and state. Values that a station says are never
 * among it (law 4: one has to listen), unless its words were asked for.
 */

import { holds } from '../../kernel/figures/condition.ts'
import type { Figure } from '../../kernel/kinds/kind.ts'
import { sayValue } from '../../kernel/kinds/table.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Briefing, Exchange, ExchangeTurn } from '../../kernel/pack/exchange.ts'
import type { Role } from '../../kernel/pack/roles.ts'
import { partNames, statesOf } from '../../kernel/response/readBack.ts'
import { GAP, outlineOf, usualWording } from '../../kernel/response/sentence.ts'
import { isFree, waitsFor } from '../../kernel/run/core/interlocks.ts'
import { listed } from '../../kernel/run/core/phrases.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { topicsOf } from '../../kernel/run/talk/briefing.ts'
import { readBacksOf, type Speech, stationWords } from '../../kernel/run/talk/radio.ts'
import {
  answers,
  callableTurns,
  isColleagues,
  isRelayed,
  pendingTurn,
  talkAt,
  turnState,
} from '../../kernel/run/talk/talk.ts'
import { withProperNames } from './properNames.ts'

/** `again`: right, and said beside what was not understood; `short`: digits of it were left out; `relayed`: the colleague's. */
export type ElementShown = 'ahead' | 'relayed' | 'right' | 'wrong' | 'missing' | 'again' | 'short'

export interface ViewTurn {
  readonly id: string
  readonly label: string
  readonly state: 'done' | 'now' | 'call' | 'waits'
  /** What the pilot says first, without values; or what it waits for. */
  readonly note: string
}

export interface ViewExchange {
  readonly station: string
  readonly role: Role
  /** The colleague reads back here, and the pilot listens. */
  readonly isRelayed?: true
  /** The turn whose read-back is awaited, with what must be read back, by name. */
  readonly pending?: {
    readonly turn: string
    readonly label: string
    readonly elements: readonly { readonly label: string; readonly state: ElementShown }[]
    /** What the station said, only once it was asked for. */
    readonly words?: string
    /** What it said to the last read-back: a correction is read as well as heard, and marks nothing. */
    readonly correction?: string
  }
  /** Where the order is the pilot's: all that apply. */
  readonly turns: readonly ViewTurn[]
  /** Why a call that was right is not acted on yet. */
  readonly refusal?: string
}

export interface ViewBriefing {
  readonly topics: readonly { readonly id: string; readonly label: string; readonly state: 'open' | 'ok' | 'wrong' }[]
}

/** Role as the screen says it. */
export const ROLE_WORDS: Readonly<Record<Role, string>> = {
  otherseat: 'the other seat',
  controller: 'controller, on the radio',
  broadcast: 'recorded broadcast',
  groundCrew: 'on the headset',
}

export interface TalkView {
  readonly headline: string
  readonly hint: string
  readonly caution?: string
  readonly exchange?: ViewExchange
  readonly briefing?: ViewBriefing
}

/** Undefined where neither has the floor. */
export function talkView(pack: Pack, run: RunState): TalkView | undefined {
  const talk = talkAt(pack, run.floor)
  if (!talk) return undefined
  return talk.type === 'briefing' ? briefingView(talk, run) : exchangeView(pack, talk, run)
}

function briefingView(briefing: Briefing, run: RunState): TalkView {
  const topics = topicsOf(briefing, run).map(({ id, label }) => ({
    id,
    label,
    state: run.topics[id] ?? ('open' as const),
  }))
  return {
    headline: briefing.name,
    hint: `Brief aloud, in any order. At its end say "${usualWording(briefing.ends)}".`,
    ...(briefing.caution !== undefined && { caution: briefing.caution }),
    briefing: { topics },
  }
}

function exchangeView(pack: Pack, exchange: Exchange, run: RunState): TalkView {
  const pending = pendingTurn(exchange, run)
  const [first, ...others] = callableTurns(exchange, run)
  const single = pending ?? (others.length === 0 ? first : undefined)
  const caution = single?.caution ?? exchange.caution
  const { name, role } = exchange.station
  return {
    headline: single?.label ?? exchange.name,
    hint: pending ? listenHint(exchange, pending, run) : callHint(pack, exchange, single),
    ...(caution !== undefined && { caution }),
    exchange: {
      station: name,
      role,
      ...(isColleagues(run, exchange) && { isRelayed: true as const }),
      ...(pending && { pending: pendingView(pack, exchange, pending, run) }),
      turns: exchange.order === 'free' ? turnsView(pack, exchange, run) : [],
      ...refusalOf(pack, exchange, run),
    },
  }
}

const LISTEN: Readonly<Record<Role, string>> = {
  otherseat: 'Listen, then answer.',
  controller: 'Listen, then read it back.',
  broadcast: 'Listen, then read back what you copied.',
  groundCrew: 'Listen, do it, then answer.',
}

function listenHint({ station }: Exchange, turn: ExchangeTurn, run: RunState): string {
  if (isRelayed(run, turn.id)) return 'Listen to both. Object where the read-back is not what was said.'
  return readBacksOf(turn, run).length > 0 ? LISTEN[station.role] : 'Listen, then acknowledge: "roger".'
}

function callHint(pack: Pack, { station, order }: Exchange, turn: ExchangeTurn | undefined): string {
  if (!turn) return order === 'free' ? 'In any order, unless one waits for another.' : ''
  const words = `${callWords(pack, turn)}.`
  if (station.role === 'broadcast') return `Say ${words}`
  if (station.role === 'otherseat') return `Give the order: ${words}`
  return station.role === 'groundCrew' ? `Tell the ground crew: ${words}` : `Call ${station.name}: ${words}`
}

/**
 * What the pilot says first, quoted, with gaps for its values, and behind it the names of those that the words before the
 * gap do not tell: "flap …", with takeoff flap.
 */
function callWords(pack: Pack, turn: ExchangeTurn): string {
  if (!turn.calls) return '""'
  const labels: string[] = []
  const words = outlineOf(turn.calls, (name) => {
    const { constant, spec, label = name } = pack.figures.declarations[name] ?? {}
    // What is the same in every departure, as the call sign, is nothing to be found out.
    if (constant !== undefined) return sayValue({ ...spec, value: constant } as Figure, 'standard')
    labels.push(label)
    return GAP
  })
  const before = words.toLowerCase().split(GAP)
  const untold = labels.filter((label, at) => !before[at]?.trimEnd().endsWith(label.toLowerCase()))
  const quoted = `"${withProperNames(pack, words)}"`
  return untold.length === 0 ? quoted : `${quoted}, with ${listed(untold)}`
}

function pendingView(pack: Pack, exchange: Exchange, turn: ExchangeTurn, run: RunState) {
  const { shown, status } = turnState(run, turn.id)
  const station = stationWords(pack, run, exchange, turn)
  const slip = status === 'slipped' ? run.script?.slip : undefined
  const words = withProperNames(pack, textOf(slip ? station.closes(slip) : station.whole()))
  const correction = answers(exchange) ? withProperNames(pack, correctionOf(station, turn, run)) : ''
  const said = { ...(shown && { words }), ...(correction !== '' && { correction }) }
  return { turn: turn.id, label: turn.label, elements: elementsView(turn, run), ...said }
}

/** The elements that it corrected last, in its words. */
function correctionOf(station: ReturnType<typeof stationWords>, turn: ExchangeTurn, run: RunState): string {
  const { last } = run
  if (last?.of !== 'readBack' || last.item !== turn.id || last.judgement.verdict !== 'negative') return ''
  const states = statesOf(readBacksOf(turn, run), last.judgement)
  const wrong = Object.keys(states).filter((id) => states[id] === 'wrong')
  return wrong.length === 0 ? '' : textOf(station.negative(wrong))
}

const textOf = (speech: readonly Speech[]) => speech.map(({ text }) => text).join(' ')

/** Right in any transmission so far counts as right; wrong or missing is what the last one says. */
function elementsView(turn: ExchangeTurn, run: RunState) {
  const elements = readBacksOf(turn, run).filter((element) => partNames(element).required.size > 0)
  const { partsSoFar, status } = turnState(run, turn.id)
  const isLast = run.last?.of === 'readBack' && run.last.item === turn.id
  const said = isLast && run.last ? statesOf(elements, run.last.judgement) : {}
  const understood = isLast && run.last?.judgement.verdict !== 'sayAgain'
  const parts = understood ? (run.last?.judgement.parts ?? []) : []
  // Their names would hold for the pilot what is to be held without.
  if (run.dial && !isLast) return []
  return elements.map((element): { label: string; state: ElementShown } => {
    const { label } = element
    if (isRelayed(run, turn.id)) return { label, state: 'relayed' }
    const { all, required } = partNames(element)
    const own = parts.filter(({ name }) => all.has(name))
    if (status === 'slipped' || [...required].every((name) => partsSoFar.includes(name)))
      return { label, state: 'right' }
    if (said[element.id] === 'wrong') return { label, state: 'wrong' }
    if (!understood) return { label, state: 'ahead' }
    if (own.some(({ lacks }) => lacks === 'digits')) return { label, state: 'short' }
    return { label, state: own.some(({ doubtful }) => doubtful) ? 'again' : 'missing' }
  })
}

function turnsView(pack: Pack, exchange: Exchange, run: RunState): ViewTurn[] {
  const pending = pendingTurn(exchange, run)
  return exchange.turns
    .filter(({ when }) => holds(when, run))
    .map((turn): ViewTurn => {
      const { id, label } = turn
      if (turnState(run, id).status === 'done') return { id, label, state: 'done', note: 'done' }
      if (id === pending?.id)
        return {
          id,
          label,
          state: 'now',
          note: isRelayed(run, id) ? 'your colleague reads back' : 'waiting for your answer',
        }
      const held = waitsFor(pack, run, turn)
      if (held !== undefined) return { id, label, state: 'waits', note: held }
      if (turn.calls === undefined) return { id, label, state: 'waits', note: `${exchange.station.name} begins` }
      return { id, label, state: 'call', note: `say ${callWords(pack, turn)}` }
    })
}

/** A right call of a turn that is still ahead was refused: something else comes first. */
function refusalOf(pack: Pack, exchange: Exchange, run: RunState): { refusal: string } | undefined {
  const { last } = run
  if (last?.of !== 'call' || !last.isRefused || run.question) return undefined
  const turn = exchange.turns.find(({ id }) => id === last.item)
  if (!turn || turnState(run, turn.id).status !== 'ahead') return undefined
  const held =
    turn.interlocks?.find((interlock) => !isFree(pack, run, interlock)) ??
    turn.interlocks?.find(({ seconds }) => seconds)
  const [due] = callableTurns(exchange, run)
  const why = held?.say ?? due?.label
  return why === undefined ? undefined : { refusal: why }
}
