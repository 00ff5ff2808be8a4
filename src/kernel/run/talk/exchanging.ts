/**
 * What follows from the pilot's call or read-back: the station answers in its own words, a wrong element is
 * corrected and read back again, and what was given becomes figures.
 */

import type { Pack } from '../../pack/checklist.ts'
import type { Exchange, ExchangeTurn } from '../../pack/exchange.ts'
import { fillTemplate } from '../../pack/template.ts'
import { statesOf } from '../../response/readBack.ts'
import { tooSoonToAsk } from '../core/askingAgain.ts'
import type { By, RunEvent } from '../core/events.ts'
import { type Unmet, unmet } from '../core/interlocks.ts'
import { sayAndListen as listenAfter, PROMPT_AFTER_MISS_MS } from '../core/listening.ts'
import { withRefusal } from '../core/notYet.ts'
import { say } from '../core/phrases.ts'
import type { RunState, Step } from '../core/state.ts'
import { finish, heardRight, hearStation } from './closing.ts'
import { leftOut, owedAfter } from './owed.ts'
import { isCallSign, isOptional, keepParts, labelsOf, wrongWords } from './parts.ts'
import { readBacksOf, type Speech, spokenIn, stationWords } from './radio.ts'
import {
  answers,
  awaited,
  callableTurns,
  exchangeAt,
  exchangesOf,
  findTurn,
  reopenTurn,
  turnState,
  withTurn,
} from './talk.ts'

type Transmitted = RunEvent<'transmitted'>

/** Throws where the pack does not have the turn. */
export function transmitted(pack: Pack, before: RunState, event: Transmitted): Step {
  const { exchange, turn } = findTurn(pack, event.turn)
  // Another order in place of an answer to "affirm?" is the order that counts.
  const question = before.question?.about === 'order' ? undefined : before.question
  const { evidence, judgement, part } = event
  const last = { item: turn.id, of: part, challenge: turn.label, text: evidence.text, by: evidence.by, judgement }
  const state = { ...before, standingBy: false, question, last }
  if (turnState(state, turn.id).slip === 'open') return afterSlip(pack, state, exchange, turn, event)
  if (exchangeAt(pack, state.floor)?.id !== exchange.id || event.revision !== state.revision) {
    return { state, effects: [] }
  }
  return event.part === 'call'
    ? called(pack, state, exchange, turn, event)
    : readBack(pack, state, exchange, turn, event)
}

function called(pack: Pack, state: RunState, exchange: Exchange, turn: ExchangeTurn, event: Transmitted): Step {
  const station = stationWords(pack, state, exchange, turn)
  const { judgement } = event
  const order = exchange.station.role === 'otherseat'
  const isMute = !answers(exchange)
  const blockedBy = unmet(pack, state, turn.interlocks, event.t)
  const caution = blockedBy?.interlock.say
  // What a clearance that is still to be given will say is neither confirmed nor denied.
  if (caution !== undefined && isToCome(pack, blockedBy, judgement)) {
    return notYet(pack, { ...state, last: undefined }, caution)
  }
  switch (judgement.verdict) {
    case 'correct': {
      if (caution !== undefined) return notYet(pack, state, caution)
      if (!callableTurns(exchange, state).includes(turn)) {
        return notYet(pack, state, callableTurns(exchange, state)[0]?.label ?? exchange.name)
      }
      const waived = leftOut(judgement, turnState(state, turn.id))
      const granted = waived.length > 0 ? withTurn(state, turn.id, { waived }) : state
      return answerTo(pack, granted, exchange, turn)
    }
    case 'negative': {
      // The opposite of what was done: it has to be done again.
      const isUndone = turnState(state, turn.id).status === 'done'
      const missed = countMiss(isUndone ? reopenTurn(state, turn, { status: 'ahead' }) : state, turn, event)
      const heard = wrongWords(judgement.parts) || event.evidence.text
      if (order && judgement.parts.some(({ kind, state: part }) => kind === 'figure' && part === 'wrong')) {
        const question = { about: 'order', turn: turn.id, heard } as const
        return listenAfter(pack, { ...missed, question }, [], { prompt: true, tone: 'attention' })
      }
      if (isMute) return listenAfter(pack, missed, [say.heard(heard)], { prompt: true, tone: 'attention' })
      const asked = owedAfter(judgement, turnState(state, turn.id))
      // What was right stands: only what the station asks for is owed.
      const kept = asked.owed?.length ? keepParts(pack, missed, exchange, turn, judgement.parts) : missed
      const owing = withTurn(kept, turn.id, asked)
      return hearStation(pack, owing, station.confirm(labelsOf(pack, turn, judgement.parts, 'wrong')))
    }
    case 'incomplete': {
      const asked = owedAfter(judgement, turnState(state, turn.id))
      const kept = withTurn(keepParts(pack, state, exchange, turn, judgement.parts), turn.id, asked)
      if (isCallSign(pack, exchange, judgement.parts, 'missing'))
        return hearStation(pack, kept, station.sayAgainCallSign())
      const labels = labelsOf(pack, turn, judgement.parts, 'missing')
      // What is asked for may be all that the turn is called.
      const others = labels.filter((label) => label !== turn.label)
      const question = others.length > 0 ? say.missing(turn.label, others) : say.topics([turn.label])
      if (isMute) return listenAfter(pack, kept, [question])
      return hearStation(pack, kept, station.confirm(labels))
    }
    case 'sayAgain':
    case 'command':
      return unclear(pack, state, exchange, turn, event.evidence.by)
  }
}

/** What the station answers to a right call: its words, and the wait for their read-back, whoever reads back. */
export function answerTo(pack: Pack, state: RunState, exchange: Exchange, turn: ExchangeTurn, insisted?: string): Step {
  // The order as it was heard, in the words of its echo.
  const { radio = 'icao' } = state.settings
  const words = turn.opens ? fillTemplate(turn.opens[radio], () => insisted ?? '') : `${turn.label} ${insisted}`
  const echo: Speech = { role: 'otherseat', text: say.insisted(words) }
  const speech = insisted === undefined ? stationWords(pack, state, exchange, turn).whole() : [echo]
  const kept = insisted === undefined ? {} : { insisted }
  if (readBacksOf(turn, state).length === 0) return finish(pack, state, turn, speech, kept)
  const waits = withTurn(state, turn.id, {
    status: awaited(state, exchange, turn),
    partsSoFar: [],
    begun: {},
    sayAgains: 0,
    agreed: spokenIn(turn, state),
    ...kept,
  })
  return hearStation(pack, { ...waits, floorListenId: state.listenId + 1 }, speech)
}

function readBack(pack: Pack, state: RunState, exchange: Exchange, turn: ExchangeTurn, event: Transmitted): Step {
  const station = stationWords(pack, state, exchange, turn)
  const { status } = turnState(state, turn.id)
  if (status === 'ahead' || status === 'done') return { state, effects: [] }
  const { judgement } = event
  const elements = readBacksOf(turn, state)
  if (status === 'slipped') return slipAnswered(pack, state, exchange, turn, event)
  const states = statesOf(elements, judgement)
  const ids = (which: string) => Object.keys(states).filter((id) => states[id] === which)
  switch (judgement.verdict) {
    case 'correct':
      return heardRight(pack, state, exchange, turn)
    case 'negative': {
      const wrong = judgement.parts.filter((part) => part.state === 'wrong')
      if (acceptsNow(state, exchange) && wrong.length > 0 && wrong.every(({ kind }) => kind === 'figure')) {
        return finish(pack, state, turn, station.closes(), { slip: 'open', accepted: wrong.map(({ name }) => name) })
      }
      const kept = keepParts(pack, countMiss(state, turn, event), exchange, turn, judgement.parts)
      const corrected = ids('wrong')
      const isOther = isCallSign(pack, exchange, judgement.parts, 'wrong')
      if (!answers(exchange)) {
        const asked = corrected.length > 0 ? corrected : elements.map(({ id }) => id)
        const labels = elements.filter(({ id }) => asked.includes(id)).map(({ label }) => label)
        const words = [say.heard(wrongWords(judgement.parts) || event.evidence.text), say.topics(labels)]
        return listenAfter(pack, kept, words, { tone: 'attention', promptAfterMs: PROMPT_AFTER_MISS_MS })
      }
      return hearStation(pack, kept, correction(station, corrected, elements, isOther), PROMPT_AFTER_MISS_MS)
    }
    case 'incomplete': {
      const kept = keepParts(pack, state, exchange, turn, judgement.parts)
      const missing = elements.filter(({ id }) => states[id] !== 'ok').map(({ label }) => label)
      if (missing.length === 0) return hearStation(pack, kept, station.sayAgainCallSign())
      // "Roger" to all of it: all of it is to be read back.
      if (judgement.because === 'acknowledged' && ids('ok').every((id) => isOptional(elements, id))) {
        return hearStation(pack, kept, station.readBack([]))
      }
      return answers(exchange)
        ? hearStation(pack, kept, station.readBack(missing))
        : listenAfter(pack, kept, [say.topics(missing)])
    }
    case 'sayAgain':
    case 'command':
      return unclear(pack, state, exchange, turn, event.evidence.by)
  }
}

/** The right version of what was wrong; where that is who calls, who it is. */
function correction(
  station: ReturnType<typeof stationWords>,
  wrong: readonly string[],
  elements: ReturnType<typeof readBacksOf>,
  isOtherCallSign: boolean,
): readonly Speech[] {
  if (wrong.length > 0) return station.negative(wrong)
  return isOtherCallSign ? station.sayAgainCallSign() : station.readBack(elements.map(({ label }) => label))
}

/** A controller who is to err like this calls the first wrong value correct, whichever it is, and no later one. */
function acceptsNow({ script, turns }: RunState, { station }: Exchange): boolean {
  const isOver = Object.values(turns).some(({ slip }) => slip !== undefined)
  return script?.slip?.kind === 'acceptsWrong' && station.role === 'controller' && !isOver
}

/** The controller has just said another value after a right read-back: does the pilot object? */
function slipAnswered(pack: Pack, state: RunState, exchange: Exchange, turn: ExchangeTurn, event: Transmitted): Step {
  const slip = state.script?.slip
  const element = turn.elements.find(({ says }) => slip && says.icao.figures.includes(slip.figure))
  const right = event.judgement.parts.some(({ name, state: part }) => name === slip?.figure && part === 'ok')
  if (!right || !element) return finish(pack, state, turn, [], { slip: 'unnoticed' })
  return slipCaught(pack, state, exchange, turn)
}

/** The pilot objects without a value: the station says which it is. */
export function slipCaught(pack: Pack, state: RunState, exchange: Exchange, turn: ExchangeTurn): Step {
  const slip = state.script?.slip
  const element = turn.elements.find(({ says }) => slip && says.icao.figures.includes(slip.figure))
  const speech = element ? stationWords(pack, state, exchange, turn).affirm(element.id) : []
  return finish(pack, state, turn, speech, { slip: 'noticed' })
}

/** Nothing was said to it: the other value went by. */
export function slipWentBy(pack: Pack, state: RunState, turn: ExchangeTurn): Step {
  return finish(pack, state, turn, [], { slip: 'unnoticed' })
}

/** A wrong read-back was called correct, and the pilot comes back to it. */
function afterSlip(pack: Pack, state: RunState, exchange: Exchange, turn: ExchangeTurn, event: Transmitted): Step {
  const { accepted = [] } = turnState(state, turn.id)
  const isRight = (figure: string) =>
    event.judgement.parts.some(({ name, state: part }) => name === figure && part === 'ok')
  const right = accepted.length > 0 && accepted.every(isRight)
  const { radio = 'icao' } = state.settings
  const element = turn.elements.find(({ says }) => accepted.some((figure) => says[radio].figures.includes(figure)))
  if (!right || !element) return { state, effects: [] }
  const noticed = withTurn(state, turn.id, { slip: 'noticed' })
  const speech = stationWords(pack, state, exchange, turn).affirm(element.id)
  return listenAfter(pack, noticed, [], { stations: speech, prompt: true })
}

/**
 * Half a call that comes too early is that first of all; and a wrong value is none, where the clearance or the station that
 * it waits for has not given it yet.
 */
function isToCome(pack: Pack, blockedBy: Unmet | undefined, { verdict, parts }: Transmitted['judgement']): boolean {
  const after = blockedBy?.interlock.after ?? ''
  if (after.startsWith('cleared:') && verdict === 'correct') return true
  if (verdict === 'incomplete') return true
  const given = exchangesOf(pack).flatMap(({ turns }) => turns.find(({ id }) => id === after)?.sets ?? [])
  const isGivenThere = parts.every(({ name, state }) => state !== 'wrong' || given.includes(name))
  return verdict === 'negative' && (after.startsWith('cleared:') || isGivenThere)
}

function notYet(pack: Pack, state: RunState, caution: string): Step {
  return listenAfter(pack, withRefusal(state), [say.notYet(caution)], { tone: 'attention' })
}

/** The ear's doing: not counted against the pilot. */
function unclear(pack: Pack, before: RunState, exchange: Exchange, turn: ExchangeTurn, by: By): Step {
  const soon = tooSoonToAsk(pack, before, by)
  if (soon) return soon
  const times = turnState(before, turn.id).sayAgains + 1
  const state = { ...withTurn(before, turn.id, { sayAgains: times }), askedAgainAt: before.t }
  // What is typed is read in any case: only a voice may be helped by keys.
  if (by === 'voice' && times > 3) return listenAfter(pack, state, [], { tone: 'soft' })
  if (by === 'voice' && times === 3) return listenAfter(pack, state, [say.useKeys()])
  if (!answers(exchange)) return listenAfter(pack, state, [say.sayAgain(turn.label)])
  return hearStation(pack, state, stationWords(pack, state, exchange, turn).sayAgain())
}

function countMiss(state: RunState, turn: ExchangeTurn, event: Transmitted): RunState {
  const { misses } = turnState(state, turn.id)
  return withTurn(state, turn.id, {
    misses: misses + 1,
    sayAgains: 0,
    ...(event.part === 'call' && { partsSoFar: [] }),
  })
}
