/** Exchanges and briefings of procedures.yaml -> as the kernel knows them. */

import type { Briefing, Exchange, Turn, Wording } from '../kernel/pack/exchange.ts'
import { conditionOf, interlocksOf } from './conditions.ts'
import type { BriefingText, ElementText, ExchangeText, TurnText, WordingText } from './exchangeSchema.ts'
import { present } from './present.ts'

export function wordingOf(text: WordingText): Wording {
  return typeof text === 'string' ? { icao: text, faa: text } : text
}

function elementOf({ element, label, alsoCalled, says, readBack, when }: ElementText) {
  return present({
    ...{ id: element, label, alsoCalled, says: wordingOf(says), when: conditionOf(when) },
    readBack: readBack === undefined ? undefined : wordingOf(readBack),
  })
}

function turnOf(exchange: string, text: TurnText): Turn {
  const { turn, label, calls, states, opens, closes, elements, faaOrder, sets, clears, caution } = text
  return present({
    id: `${exchange}.${turn}`,
    label,
    calls,
    states,
    opens: opens === undefined ? undefined : wordingOf(opens),
    elements: elements.map(elementOf),
    faaOrder,
    closes: closes === undefined ? undefined : wordingOf(closes),
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
    ends,
    topics: topics.map(({ topic, label, say, when }) =>
      present({ id: `${briefing}.${topic}`, label, say, when: conditionOf(when) }),
    ),
    when: conditionOf(when),
    caution,
  })
}
