/** A call to another station while a broadcast has the floor: a broadcast answers nobody, and no word of it is a read-back. */

import type { Exchange } from '../pack/exchange.ts'
import { withoutAddress } from '../response/readBack.ts'
import type { EventBody } from '../run/core/events.ts'
import { addressOf, exchangesOf, openTurns } from '../run/talk/talk.ts'
import { stationCall } from './stationCall.ts'
import type { Utterance } from './utterance.ts'

/** Undefined where it was meant for nobody else. */
export function otherStation(utterance: Utterance, exchange: Exchange): EventBody | undefined {
  const { pack, state, evidence } = utterance
  const [turn] = openTurns(exchange, state)
  if (exchange.station.role !== 'broadcast' || !turn) return undefined
  const controllers = exchangesOf(pack).filter(({ station }) => station.role === 'controller')
  const isMeant = controllers.some((other) => isAddressed(utterance, other) || isCallTo(utterance, other))
  return isMeant ? { type: 'overheard', evidence, first: turn.id } : undefined
}

function isAddressed({ said: { heard } }: Utterance, exchange: Exchange): boolean {
  return withoutAddress(heard, addressOf(exchange)).tokens.length < heard.tokens.length
}

/** In words that a turn of it begins with, and nothing else. */
function isCallTo(utterance: Utterance, exchange: Exchange): boolean {
  const isWhole = (event: EventBody | undefined) =>
    event?.type === 'transmitted' && event.judgement.verdict === 'correct' && isSpoken(event)
  return isWhole(stationCall(utterance, exchange))
}

/** Something of it was said now: what is all optional is right with nothing. */
const isSpoken = ({ judgement }: EventBody<'transmitted'>) =>
  judgement.parts.some(({ kind, state, heard }) => kind === 'word' && state === 'ok' && heard !== undefined)
