/** Where an exchange or a briefing has the floor: a call, a read-back, a wish to hear it again, or topics. */

import { textOf } from '../numbers/tokens.ts'
import type { Element, Exchange, ExchangeTurn } from '../pack/exchange.ts'
import type { EventBody } from '../run/core/events.ts'
import { stationWords } from '../run/talk/radio.ts'
import { pendingTurn, talkAt, turnState } from '../run/talk/talk.ts'
import { briefed } from './briefing.ts'
import { command, sayAgain } from './command.ts'
import { otherStation } from './otherStation.ts'
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
  const other = heard.doubt ? undefined : otherStation(utterance, exchange)
  if (other) return other
  if (!pending) return firstCall(utterance, exchange)
  const again =
    (opening === 'sayAgain' || opening === 'confirm') && !heard.doubt
      ? heardAgain(utterance, exchange, pending)
      : undefined
  if (again) return again
  // What is not like an answer is asked for again once: whoever talks on does not mean the station.
  if (isHalfOther(utterance) && turnState(state, pending.id).sayAgains > 0) return undefined
  const answer = readBack(utterance, exchange, pending)
  // In a free exchange another call may come first.
  if (answer && (exchange.order === 'fixed' || isClear(answer))) return answer
  return stationCall(utterance, exchange) ?? answer
}

/** Nothing of a station was said yet that "say again" or "confirm" could be about: its turn is put again. */
function firstCall(utterance: Utterance, exchange: Exchange): EventBody | undefined {
  const { heard, opening } = utterance
  const call = stationCall(utterance, exchange)
  const isCall = call?.type === 'transmitted' && call.judgement.verdict === 'correct'
  const isAbout = opening === 'sayAgain' || opening === 'confirm'
  // The ground crew and the other seat are told to confirm.
  const hears = exchange.station.role === 'controller' || exchange.station.role === 'broadcast'
  return isAbout && hears && !isCall && !heard.doubt ? (command(utterance) ?? sayAgain(utterance)) : call
}

/**
 * "Say again", or a part alone: "say again squawk", "say again all after level" (SERA.14075 (c)(3), FAA AIM 4-2-1's
 * glossary, looked up); "confirm squawk" asks for that element as well, as long as no value is said with it. Undefined for
 * "confirm" of anything else.
 */
function heardAgain(utterance: Utterance, exchange: Exchange, turn: ExchangeTurn): EventBody | undefined {
  const { pack, state, opening, rest, evidence } = utterance
  const [, bound = '', name = ''] = PART.exec(textOf(rest.heard).toLowerCase()) ?? []
  const texts = stationWords(pack, state, exchange, turn).texts()
  const isNamed = ({ label, alsoCalled }: Element) => [label, ...alsoCalled].some((one) => one.toLowerCase() === name)
  const isSaidIn = (text: string) => name !== '' && bound !== '' && ` ${text} `.includes(` ${name} `)
  const found = texts.find(({ element }) => isNamed(element)) ?? texts.find(({ text }) => isSaidIn(text))
  if (opening === 'confirm' && (!found || bound !== '')) return undefined
  const argument = found && (bound === '' ? found.element.id : `${bound.trim()} ${found.element.id}`)
  return { type: 'commanded', command: 'sayAgain', evidence, ...(argument !== undefined && { argument }) }
}

/** What is asked for: a name, or all that was said after or before it. */
const PART = /^(?:all )?((?:after|before) )?(?:the |your )?(.*?)[ .]*$/
