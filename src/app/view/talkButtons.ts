/** What may be pressed in an exchange or a briefing: calls and answers of words alone, and the end of a briefing. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Exchange, Turn } from '../../kernel/pack/exchange.ts'
import { figuresOf, parseResponse } from '../../kernel/response/parse.ts'
import { sayResponse } from '../../kernel/response/sentence.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { readBacksOf } from '../../kernel/run/talk/radio.ts'
import { callableTurns, pendingTurn, talkAt } from '../../kernel/run/talk/talk.ts'
import type { ViewButton } from './press.ts'

export function talkButtons(pack: Pack, run: RunState): ViewButton[] {
  const talk = talkAt(pack, run.floor)
  if (!talk) return []
  if (talk.type === 'exchange') return exchangeButtons(talk, run)
  const [phrase = ''] = talk.ends
  return [{ label: 'Briefing complete', phrase, press: { type: 'briefingDone', briefing: talk.id } }]
}

/** Values are said or typed; words alone may be confirmed by key. */
function exchangeButtons(exchange: Exchange, run: RunState): ViewButton[] {
  const pending = pendingTurn(exchange, run)
  const calls = callableTurns(exchange, run).flatMap((turn) => {
    const phrase = wordsAlone([turn.calls ?? ''])
    return phrase === undefined || turn === pending ? [] : [byKey(turn, 'call', phrase)]
  })
  if (!pending) return calls
  const responses = readBacksOf(pending, run).map(({ response }) => response)
  const phrase = responses.length === 0 ? 'roger' : wordsAlone(responses)
  // What the answer is, one has to hear.
  const answer =
    phrase === undefined ? [] : [byKey(pending, 'readBack', responses.length === 0 ? phrase : 'your answer')]
  // Where another call may come first.
  return exchange.order === 'free' ? [...answer, ...calls] : answer
}

const byKey = ({ id, label }: Turn, part: 'call' | 'readBack', phrase: string): ViewButton => ({
  label: `Confirm by key: ${label}`,
  phrase,
  press: { type: 'confirmTurn', turn: id, part },
})

/** Undefined where there is a value in it. */
function wordsAlone(responses: readonly string[]): string | undefined {
  const parsed = responses.map((text) => parseResponse(text))
  const words = parsed.flatMap((one) =>
    'response' in one && figuresOf(one.response).length === 0 ? [sayResponse(one.response, {}, 'plain')] : [],
  )
  return words.length === responses.length ? words.join(', ') : undefined
}
