/** Exchanges and briefings of procedures.yaml -> as the kernel knows them. */

import type { Radio } from '../kernel/kinds/radio.ts'
import type { Briefing, Exchange, ExchangeTurn, Wording } from '../kernel/pack/exchange.ts'
import { parseTemplate } from '../kernel/pack/template.ts'
import { anyOf, type Response, responseFrom } from '../kernel/response/response.ts'
import { conditionOf, interlocksOf } from './conditions.ts'
import type { BriefingText, ElementText, ExchangeText, TurnText, WordingText } from './exchangeSchema.ts'
import { present } from './present.ts'

/** The text in each phraseology; one that both have is the same in both. */
export function wordingOf(text: WordingText): Readonly<Record<Radio, string>> {
  return typeof text === 'string' ? { icao: text, faa: text } : text
}

/** Each text parsed; one that both have once. */
function parsedWith<T>(parse: (text: string) => T, text: WordingText): Readonly<Record<Radio, T>> {
  const { icao, faa } = wordingOf(text)
  const one = parse(icao)
  return { icao: one, faa: faa === icao ? one : parse(faa) }
}

const templatesOf = (text: WordingText): Wording => parsedWith(parseTemplate, text)

/** Any one of these ways to say something. */
export const anyWayOf = (texts: readonly string[]): Response => anyOf(texts.map(responseFrom))

function elementOf({ element, label, alsoCalled, says, readBack, when }: ElementText) {
  return present({
    ...{ id: element, label, alsoCalled, says: templatesOf(says), when: conditionOf(when) },
    readBack: readBack === undefined ? undefined : parsedWith(responseFrom, readBack),
  })
}

function turnOf(exchange: string, text: TurnText): ExchangeTurn {
  const { turn, label, calls, states, opens, closes, elements, faaOrder, sets, clears, caution } = text
  return present({
    id: `${exchange}.${turn}`,
    label,
    calls: calls === undefined ? undefined : responseFrom(calls),
    states,
    opens: opens === undefined ? undefined : templatesOf(opens),
    elements: elements.map(elementOf),
    faaOrder,
    closes: closes === undefined ? undefined : templatesOf(closes),
    sets,
    clears,
    when: conditionOf(text.when),
    interlocks: interlocksOf(text.interlocks),
    caution,
  })
}

export function exchangeOf({ exchange, name, with: station, order, turns, when, caution }: ExchangeText): Exchange {
  return present({
    type: 'exchange' as const,
    id: exchange,
    name,
    station,
    order,
    turns: turns.map((turn) => turnOf(exchange, turn)),
    when: conditionOf(when),
    caution,
  })
}

export function briefingOf({ briefing, name, ends, topics, when, caution }: BriefingText): Briefing {
  return present({
    type: 'briefing' as const,
    id: briefing,
    name,
    ends: anyWayOf(ends),
    topics: topics.map(({ topic, label, say, when }) =>
      present({ id: `${briefing}.${topic}`, label, say: say.map(responseFrom), when: conditionOf(when) }),
    ),
    when: conditionOf(when),
    caution,
  })
}
