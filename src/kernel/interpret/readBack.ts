/** A read-back of what a station has said. */

import { ACKNOWLEDGEMENTS } from '../hearing/talk.ts'
import type { ExchangeTurn } from '../pack/exchange.ts'
import { figuresFor } from '../pack/place.ts'
import { cuesOf } from '../response/cues.ts'
import type { Hypotheses } from '../response/hypotheses.ts'
import { judgeReadBack, partNames, wholeResponse } from '../response/readBack.ts'
import { responseFrom } from '../response/response.ts'
import { segmentsOf } from '../response/segments.ts'
import type { EventBody } from '../run/core/events.ts'
import { readBacksOf } from '../run/talk/radio.ts'
import { saidValues } from '../run/talk/said.ts'
import { addressOf, besideReadBack, findTurn, turnState } from '../run/talk/talk.ts'
import { judgedBy, transmitted } from './transmission.ts'
import { type Utterance, unaddressed } from './utterance.ts'

const ACKNOWLEDGED = responseFrom(`(${ACKNOWLEDGEMENTS.join(' | ')})`)

/** Undefined where it was other speech. */
export function readBack(utterance: Utterance, turn: ExchangeTurn): EventBody | undefined {
  const { state, message, rest } = utterance
  // To another value that the station has just said, the pilot objects first.
  return judged(utterance, turn, turnState(state, turn.id).status === 'slipped' ? rest : message)
}

/** A read-back that a controller wrongly called correct is come back to, wherever the run is by then. */
export function secondThoughts(utterance: Utterance): EventBody | undefined {
  const { pack, state, rest } = utterance
  const id = Object.keys(state.turns).find((turn) => state.turns[turn]?.slip === 'open')
  if (id === undefined || rest.heard.tokens.length === 0) return undefined
  const { exchange, turn } = findTurn(pack, id)
  const event = judged(utterance, turn, unaddressed(rest, addressOf(exchange)))
  const isRight = event?.type === 'transmitted' && event.judgement.parts.some((part) => part.state === 'ok')
  return isRight ? event : undefined
}

function judged(utterance: Utterance, turn: ExchangeTurn, said: Hypotheses): EventBody | undefined {
  const { pack, state } = utterance
  const elements = readBacksOf(turn, state)
  const { status, partsSoFar } = turnState(state, turn.id)
  const spoken = elements.length > 0 ? elements : [{ id: 'acknowledged', response: ACKNOWLEDGED }]
  const beside = besideReadBack(turn)
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
  const judgement = judgeReadBack(meant, { ...judgedBy(utterance, turn, said, standing), figures })
  return transmitted(utterance, said, { turn, part: 'readBack', response, figures, judgement })
}
