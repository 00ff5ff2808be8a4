/** Exchanges and briefings of procedures.yaml -> as the kernel knows them. */

import type { Radio } from '../kernel/kinds/radio.ts'
import type { Briefing, Element, Exchange, ExchangeTurn, Station, Topic, Wording } from '../kernel/pack/exchange.ts'
import { parseTemplate } from '../kernel/pack/template.ts'
import { alsoNamed, type Synonyms } from '../kernel/response/packSynonyms.ts'
import { anyOf, type Response, responseFrom } from '../kernel/response/response.ts'
import { conditionOf, interlocksOf } from './conditions.ts'
import type { BriefingText, ElementText, ExchangeText, TurnText, WordingText } from './exchangeSchema.ts'
import { exactly } from './present.ts'

const asBoth = exactly<Readonly<Record<Radio, string>>>()

/** The text in each phraseology; a single text serves both. */
export function wordingOf(text: WordingText): Readonly<Record<Radio, string>> {
  return typeof text === 'string' ? { icao: text, faa: text } : asBoth(text)
}

/** The text of each phraseology parsed; a text that serves both is parsed once. */
function parsedWith<T>(parse: (text: string) => T, text: WordingText): Readonly<Record<Radio, T>> {
  const { icao, faa } = wordingOf(text)
  const one = parse(icao)
  return { icao: one, faa: faa === icao ? one : parse(faa) }
}

const templatesOf = (text: WordingText): Wording => parsedWith(parseTemplate, text)

/** Any one of these ways to say something. */
export const anyWayOf = (texts: readonly string[], synonyms?: Synonyms): Response =>
  anyOf(texts.map((text) => responseFrom(text, synonyms)))

const asElement = exactly<Element>()
const asTurn = exactly<ExchangeTurn>()
const asExchange = exactly<Exchange>()
const asStation = exactly<Station>()

function elementOf({ element, says, readBack, alsoCalled, when, ...same }: ElementText, synonyms: Synonyms): Element {
  return asElement({
    id: element,
    says: templatesOf(says),
    readBack: readBack === undefined ? undefined : parsedWith((text) => responseFrom(text, synonyms), readBack),
    alsoCalled: [...alsoCalled, ...alsoNamed(same.label, synonyms)],
    when: conditionOf(when),
    ...same,
  })
}

function turnOf(exchange: string, text: TurnText, synonyms: Synonyms): ExchangeTurn {
  const { turn, calls, opens, closes, elements, when, interlocks, ...same } = text
  return asTurn({
    id: `${exchange}.${turn}`,
    calls: calls === undefined ? undefined : responseFrom(calls, synonyms),
    opens: opens === undefined ? undefined : templatesOf(opens),
    closes: closes === undefined ? undefined : templatesOf(closes),
    elements: elements.map((element) => elementOf(element, synonyms)),
    when: conditionOf(when),
    interlocks: interlocksOf(interlocks),
    ...same,
  })
}

export function exchangeOf(
  { exchange, with: station, turns, when, ...same }: ExchangeText,
  synonyms: Synonyms,
): Exchange {
  return asExchange({
    type: 'exchange' as const,
    id: exchange,
    station: asStation(station),
    turns: turns.map((turn) => turnOf(exchange, turn, synonyms)),
    when: conditionOf(when),
    ...same,
  })
}

const asBriefing = exactly<Briefing>()
const asTopic = exactly<Topic>()

export function briefingOf({ briefing, ends, topics, when, ...same }: BriefingText, synonyms: Synonyms): Briefing {
  return asBriefing({
    type: 'briefing' as const,
    id: briefing,
    ends: anyWayOf(ends, synonyms),
    topics: topics.map(({ topic, say, when, ...same }) =>
      asTopic({
        id: `${briefing}.${topic}`,
        say: say.map((text) => responseFrom(text, synonyms)),
        when: conditionOf(when),
        ...same,
      }),
    ),
    when: conditionOf(when),
    ...same,
  })
}
