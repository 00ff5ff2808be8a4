/** Where an exchange or a briefing has the floor: a call, a read-back, a wish to hear it again, or topics. */

import { textOf } from '../numbers/tokens.ts'
import type { Exchange, ExchangeTurn } from '../pack/exchange.ts'
import type { EventBody } from '../run/core/events.ts'
import { pendingTurn, talkAt, turnState } from '../run/talk/talk.ts'
import { briefed } from './briefing.ts'
import { readBack } from './readBack.ts'
import { stationCall } from './stationCall.ts'
import { isHalfOther, overheard, type Utterance } from './utterance.ts'

/** Undefined where no exchange or briefing has the floor, or where it is none of its business. */
export function talk(utterance: Utterance): EventBody | undefined {
  const { pack, state, heard } = utterance
  const here = talkAt(pack, state.floor)
  if (!here || heard.doubt === 'onsetCut') return undefined
  if (here.type === 'exchange') return inExchange(utterance, here)
  return heard.doubt ? undefined : briefed(utterance, here)
}

/** The read-back that was waited for ends the wait; other speech does not. */
export function awaited(utterance: Utterance): EventBody | undefined {
  const event = talk(utterance)
  return event && isClear(event) ? event : undefined
}

/** "Correction, flap twelve", said of the order that was just questioned: nothing else is meant. */
export function otherOrder(utterance: Utterance): EventBody {
  const { rest } = utterance
  return talk({ ...utterance, said: rest, message: rest }) ?? overheard(utterance)
}

const isClear = (event: EventBody) => event.type === 'transmitted' && event.judgement.verdict !== 'sayAgain'

function inExchange(utterance: Utterance, exchange: Exchange): EventBody | undefined {
  const { state, heard, opening } = utterance
  const pending = pendingTurn(exchange, state)
  if (!pending) return stationCall(utterance, exchange)
  if (opening === 'sayAgain' && !heard.doubt) return heardAgain(utterance, pending)
  // What is not like an answer is asked for again once: whoever talks on does not mean the station.
  if (isHalfOther(utterance) && turnState(state, pending.id).sayAgains > 0) return undefined
  const answer = readBack(utterance, pending)
  // In a free exchange another call may come first.
  if (answer && (exchange.order === 'fixed' || isClear(answer))) return answer
  return stationCall(utterance, exchange) ?? answer
}

/** "Say again", or one element alone: "say again squawk", "say again the route". */
function heardAgain({ rest, evidence }: Utterance, turn: ExchangeTurn): EventBody {
  const name = textOf(rest.heard)
    .toLowerCase()
    .replace(/^(the|your)\s+|[\s.]+$/g, '')
  const element = turn.elements.find(({ label, alsoCalled }) =>
    [label, ...alsoCalled].some((one) => one.toLowerCase() === name),
  )
  return { type: 'commanded', command: 'sayAgain', evidence, ...(element && { argument: element.id }) }
}
