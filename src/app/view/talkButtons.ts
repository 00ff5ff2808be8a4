/** What may be pressed in an exchange or a briefing: calls and answers of words alone, and the end of a briefing. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Exchange, ExchangeTurn } from '../../kernel/pack/exchange.ts'
import type { Response } from '../../kernel/response/response.ts'
import { sayResponse, usualWording } from '../../kernel/response/sentence.ts'
import { waitsFor } from '../../kernel/run/core/interlocks.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { readBacksOf } from '../../kernel/run/talk/radio.ts'
import { callableTurns, isRelayed, pendingTurn, talkAt } from '../../kernel/run/talk/talk.ts'
import type { ViewButton } from './press.ts'
import { withProperNames } from './properNames.ts'

export function talkButtons(pack: Pack, run: RunState): ViewButton[] {
  const talk = talkAt(pack, run.floor)
  if (!talk) return []
  if (talk.type === 'exchange') return exchangeButtons(pack, talk, run)
  return [
    { label: 'Briefing complete', phrase: usualWording(talk.ends), press: { type: 'briefingDone', briefing: talk.id } },
  ]
}

/** Values are said or typed; words alone may be confirmed by key. */
function exchangeButtons(pack: Pack, exchange: Exchange, run: RunState): ViewButton[] {
  const pending = pendingTurn(exchange, run)
  const calls = callableTurns(exchange, run).flatMap((turn) => {
    const phrase = wordsAlone(turn.calls ? [turn.calls] : [])
    if (phrase === undefined || turn === pending) return []
    const held = waitsFor(pack, run, turn)
    return [{ ...byKey(turn, 'call', withProperNames(pack, phrase)), ...(held !== undefined && { waitsFor: held }) }]
  })
  if (!pending) return calls
  if (isRelayed(run, pending.id)) return exchange.order === 'free' ? calls : []
  const responses = readBacksOf(pending, run).map(({ response }) => response)
  const phrase = responses.length === 0 ? 'roger' : wordsAlone(responses)
  // What the answer is, one has to hear.
  const answer = phrase === undefined ? [] : [byKey(pending, 'readBack', responses.length === 0 ? phrase : '')]
  // Where another call may come first.
  return exchange.order === 'free' ? [...answer, ...calls] : answer
}

const byKey = ({ id, label }: ExchangeTurn, part: 'call' | 'readBack', phrase: string): ViewButton => ({
  label: `Confirm by key: ${label}`,
  phrase,
  press: { type: 'confirmTurn', turn: id, part },
})

/** Undefined where there is a value in it. */
function wordsAlone(responses: readonly Response[]): string | undefined {
  if (responses.some(({ figures }) => figures.length > 0)) return undefined
  return responses.map((response) => sayResponse(response, {}, 'plain')).join(', ')
}
