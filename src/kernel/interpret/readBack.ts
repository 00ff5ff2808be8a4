/** A read-back of what a station has said. */

import { ACKNOWLEDGEMENTS } from '../hearing/talk.ts'
import type { Exchange, ExchangeTurn } from '../pack/exchange.ts'
import { figuresFor } from '../pack/place.ts'
import { cuesOf } from '../response/cues.ts'
import type { Hypotheses } from '../response/hypotheses.ts'
import { judge } from '../response/judge.ts'
import { HARMLESS } from '../response/lexicon.ts'
import type { JudgeInput, Judgement, Part } from '../response/model.ts'
import { judgeReadBack, partNames, wholeResponse } from '../response/readBack.ts'
import { type Response, responseFrom } from '../response/response.ts'
import { segmentsOf } from '../response/segments.ts'
import type { SpokenElement } from '../response/spokenElement.ts'
import type { EventBody } from '../run/core/events.ts'
import { callSignBeside } from '../run/talk/callSign.ts'
import { inFullForm } from '../run/talk/fullForm.ts'
import { readBacksOf } from '../run/talk/radio.ts'
import { saidValues } from '../run/talk/said.ts'
import { addressOf, findTurn, isColleagues, turnState } from '../run/talk/talk.ts'
import { judgedBy, transmitted } from './transmission.ts'
import { type Utterance, unaddressed } from './utterance.ts'

const ACKNOWLEDGED = responseFrom(`(${ACKNOWLEDGEMENTS.join(' | ')})`)

/** Undefined where it was other speech. */
export function readBack(utterance: Utterance, exchange: Exchange, turn: ExchangeTurn): EventBody | undefined {
  const { state, message, rest } = utterance
  // The colleague reads back: what the pilot says is that only where it puts something right.
  if (isColleagues(state, exchange)) return putRight(judged(utterance, exchange, turn, rest))
  // To another value that the station has just said, the pilot objects first.
  return judged(utterance, exchange, turn, turnState(state, turn.id).status === 'slipped' ? rest : message)
}

/** A read-back that a controller wrongly called correct is come back to, wherever the run is by then. */
export function secondThoughts(utterance: Utterance): EventBody | undefined {
  const { pack, state, rest } = utterance
  const id = Object.keys(state.turns).find((turn) => state.turns[turn]?.slip === 'open')
  if (id === undefined || rest.heard.tokens.length === 0) return undefined
  const { exchange, turn } = findTurn(pack, id)
  return putRight(judged(utterance, exchange, turn, unaddressed(rest, addressOf(exchange))))
}

function putRight(event: EventBody | undefined): EventBody | undefined {
  const parts = event?.type === 'transmitted' ? event.judgement.parts : []
  const isRight = parts.some(({ state }) => state === 'ok') && parts.every(({ state }) => state !== 'wrong')
  return isRight ? event : undefined
}

function judged(utterance: Utterance, exchange: Exchange, turn: ExchangeTurn, said: Hypotheses): EventBody | undefined {
  const { pack, state } = utterance
  const elements = readBacksOf(turn, state)
  const { status, partsSoFar } = turnState(state, turn.id)
  const spoken = elements.length > 0 ? elements : [{ id: 'acknowledged', response: ACKNOWLEDGED }]
  const beside = callSignBeside(pack, exchange)
  const all = beside.figures.length === 0 ? spoken : [...spoken, { id: 'callSign', response: beside }]
  const response = wholeResponse(all)
  const figures = figuresFor(pack, saidValues(state), response.figures)
  // A bare number is for what is owed: what may be said besides has to be named.
  const named = new Set(segmentsOf(cuesOf(all, figures), said.heard.tokens, new Set()).map(({ element }) => element))
  const meant = all.filter(
    (element, index) => element.id === 'callSign' || partNames(element).required.size > 0 || named.has(index),
  )
  // After another value that the station said, only what is said now counts.
  const standing = status === 'said' ? partsSoFar : []
  const input = { ...judgedBy(utterance, turn, said, standing), figures }
  // All said, and all of it right: then it was that, named or not.
  const whole = meant.length < all.length ? judgeReadBack(all, input) : undefined
  const judgement = whole?.verdict === 'correct' ? whole : judgeReadBack(meant, input)
  const isOnlyHeard = elements.length > 0 && exchange.station.role === 'controller' && isAcknowledged(beside, input)
  return transmitted(utterance, exchange, said, {
    ...{ turn, part: 'readBack', response, figures },
    judgement: isOnlyHeard ? acknowledged(elements, standing) : inFullForm(pack, judgement, said.heard.tokens),
  })
}

const ACKNOWLEDGING = new Set(ACKNOWLEDGEMENTS.flatMap((text) => text.split(' ')))

/** "Roger", and nothing besides but who says it: that it was heard, not what. */
function isAcknowledged(beside: Response, input: Omit<JudgeInput, 'response'>): boolean {
  const { heard } = input
  if (!heard.tokens.some(({ text }) => ACKNOWLEDGING.has(text))) return false
  const tokens = heard.tokens.filter(({ text }) => !ACKNOWLEDGING.has(text) && !HARMLESS.has(text))
  if (tokens.length === 0) return true
  const { alternatives: _, held: __, begun: ___, ...alone } = input
  return judge({ ...alone, response: beside, heard: { ...heard, tokens } }).verdict === 'correct'
}

/** Nothing was read back now: what must be is missing, but for what was said in an earlier breath. */
function acknowledged(elements: readonly SpokenElement[], standing: readonly string[]): Judgement {
  const { paths } = wholeResponse(elements)
  const owed = paths.flat().filter(({ required }) => required)
  const parts = owed.map(
    ({ name, type }): Part => ({
      ...{ name, kind: type },
      state: standing.includes(name) ? 'ok' : 'missing',
    }),
  )
  return { verdict: 'incomplete', because: 'acknowledged', parts }
}
