/**
 * What a voice outside the crew says: the pack's wordings with this departure's values in them, and the standard
 * phrases around them. Values are spoken here, since one has to hear them from a station; Otherseat itself never does.
 * A controller's answer begins with the call sign (SERA.14075 (a)(2), FAA JO 7110.65 2-4-8, looked up).
 */

import { capital } from '../../capital.ts'
import { holds } from '../../figures/condition.ts'
import { sayOnRadio } from '../../kinds/table.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { Element, Exchange, ExchangeTurn, Wording } from '../../pack/exchange.ts'
import { figuresFor } from '../../pack/place.ts'
import type { Role } from '../../pack/roles.ts'
import { fillTemplate } from '../../pack/template.ts'
import type { Effect, Slip, ToneName } from '../core/events.ts'
import type { RunState } from '../core/state.ts'
import type { Breaker } from '../partner/model.ts'
import { callSignFor } from './callSign.ts'
import { saidValues, slippedValue } from './said.ts'

/** Something to be said in one of the voices. */
export interface Speech {
  readonly role: Role
  readonly text: string
  /** Heard in place of the words. */
  readonly tone?: ToneName
  /** Otherseat's side to a station. */
  readonly onRadio?: true
}

/** As it is to sound. */
export const voiced = ({ tone, ...words }: Speech): Effect =>
  tone === undefined ? { type: 'speak', ...words } : { type: 'tone', tone }

/** Fixed phrases of the stations, for an embedded voice. */
export const STATION_PHRASES = [
  'negative',
  'affirm',
  'correct',
  'read back',
  'read back correct',
  'say again',
  'station calling',
  'say again call sign',
  'I say again',
  'confirm',
  'standing by',
  'stopping',
  'cabin here',
  'ground here',
  'one moment please',
  'a paper for you',
  'stand by',
  'confirm brakes set',
  'and',
] as const

const sentence = (...parts: readonly string[]) => {
  const text = parts.filter((part) => part !== '').join(', ')
  return text === '' ? '' : `${capital(text)}.`
}

/** The ground crew at "stop", at once and before anything else. */
export const groundStopping = ({ station: { role } }: Exchange): readonly Speech[] => [
  { role, text: `${sentence('stopping')} ${sentence('confirm brakes set')}` },
]

/** Who comes in in the middle of an item, in the voice that is nearest. `callSign`: who is called on the radio. */
export function comeIn(by: Breaker, callSign: string): readonly Speech[] {
  return {
    cabin: [{ role: 'groundCrew', text: sentence('cabin here', 'one moment please') } as const],
    groundCrew: [{ role: 'groundCrew', text: sentence('ground here', 'one moment please') } as const],
    paper: [{ role: 'groundCrew', text: sentence('a paper for you') } as const],
    radio: [{ role: 'controller', text: sentence(callSign, 'stand by') } as const],
  }[by]
}

function worded(pack: Pack, state: RunState, wording: Wording | undefined, values = saidValues(state)): string {
  if (!wording) return ''
  const { radio = 'icao' } = state.settings
  const template = wording[radio]
  const figures = figuresFor(pack, values, template.figures)
  return fillTemplate(template, (name) => {
    const figure = figures[name]
    return figure ? sayOnRadio(figure, radio) : ''
  })
}

type Radioed = Pick<RunState, 'situation' | 'values' | 'settings'>

/** Those that apply, in the order of the phraseology. */
export function elementsOf(turn: ExchangeTurn, state: Radioed): Element[] {
  const applying = turn.elements.filter((element) => holds(element.when, state))
  const { faaOrder } = turn
  if (state.settings.radio !== 'faa' || !faaOrder) return applying
  return applying.sort((a, b) => faaOrder.indexOf(a.id) - faaOrder.indexOf(b.id))
}

/** Elements that must be read back, or may be. */
export const readBacksOf = (turn: ExchangeTurn, run: Radioed) =>
  elementsOf(turn, run).flatMap((element) =>
    element.readBack === undefined ? [] : [{ ...element, response: element.readBack[run.settings.radio ?? 'icao'] }],
  )

/** All that a turn says or gives: each figure with the value that it has now. */
export function spokenIn(turn: ExchangeTurn, state: RunState): RunState['values'] {
  const wordings = [turn.opens, ...elementsOf(turn, state).map(({ says }) => says), turn.closes]
  const names = wordings.flatMap((wording) => wording?.[state.settings.radio ?? 'icao'].figures ?? [])
  const values = saidValues(state)
  return Object.fromEntries(
    [...names, ...turn.sets].flatMap((name) => {
      const value = values[name]
      return value === undefined ? [] : [[name, value]]
    }),
  )
}

/** A part of what was said, as pilots ask for it: one element, or all after or before it. */
export type Again = { readonly which: 'only' | 'after' | 'before'; readonly element: string }

/** Words of one turn by what they are for, each as speech in the voice of its station; none where it has nothing to say. */
export function stationWords(pack: Pack, state: RunState, exchange: Exchange, turn: ExchangeTurn) {
  const { role } = exchange.station
  const speech = (...parts: string[]): Speech[] => {
    const text = sentence(...parts)
    return text === '' ? [] : [{ role, text }]
  }
  const elements = elementsOf(turn, state)
  const elementText = (element: Element, values?: RunState['values']) =>
    worded(pack, state, element.says, values ?? saidValues(state))
  const textsOf = (some: readonly Element[]) => some.map((element) => elementText(element))
  const named = (ids: readonly string[]) => elements.filter(({ id }) => ids.includes(id))
  const opening = worded(pack, state, turn.opens)
  const callSign = calledBy(pack, state, exchange)
  const whole = (): Speech[] => {
    const at = elements.findIndex(({ id }) => id === state.script?.steppedOn?.[turn.id])
    if (at < 0) return speech(opening, ...textsOf(elements))
    const unheard: Speech = { role, text: '…', tone: 'steppedOn' }
    return [
      ...speech(opening, ...textsOf(elements.slice(0, at))),
      unheard,
      ...speech(...textsOf(elements.slice(at + 1))),
    ]
  }
  return {
    /** The whole of what it has to say. */
    whole,
    /** All of it again, or the part that was asked for. A broadcast runs from its beginning whatever that is. */
    again: (part?: Again) => {
      if (role === 'broadcast') return whole()
      const at = elements.findIndex(({ id }) => id === part?.element)
      if (!part || at < 0) return speech(callSign || opening, 'I say again', ...textsOf(elements))
      const { which } = part
      const asked = { only: elements.slice(at, at + 1), after: elements.slice(at + 1), before: elements.slice(0, at) }
      const own = which === 'only' ? asked.only : asked[which].length > 0 ? asked[which] : elements
      return speech(callSign, ...(which === 'only' ? [] : ['I say again']), ...textsOf(own))
    },
    /** The right version of what was read back wrong. */
    negative: (ids: readonly string[]) => speech(callSign, 'negative', ...ids.flatMap((id) => textsOf(named([id])))),
    /** Elements that are missing, by their names; all of it, where only that it was heard came back. */
    readBack: (labels: readonly string[]) => speech(callSign, `read back ${labels.join(', ')}`.trim()),
    confirm: (labels: readonly string[]) => speech(`confirm ${labels.join(', ')}`),
    /** ICAO Annex 10 volume II 5.2.1.7.3 (from memory); of FAA forms none was found, so it serves both. */
    sayAgainCallSign: () => speech('station calling', 'say again call sign'),
    /** Before a call was understood nobody knows whose it is. */
    sayAgain: () => speech(turnIsOpen(state, turn) ? callSign : '', 'say again'),
    affirm: (id: string) => speech(callSign, 'affirm', ...textsOf(named([id]))),
    /** All was right; a slip says a figure with another value after that. */
    closes: (slip?: Slip) => {
      // Whoever was sent to another frequency is gone from this one.
      const isAnswered = role === 'controller' && turn.calls !== undefined
      const closing = turn.closes
        ? [worded(pack, state, turn.closes)]
        : isAnswered
          ? [callSign, 'read back correct']
          : []
      const element = slip && turn.elements.find((each) => each.says.icao.figures.includes(slip.figure))
      const other = slip && slippedValue(pack, state, slip)
      const values = slip && other !== undefined ? { ...saidValues(state), [slip.figure]: other } : undefined
      return speech(...closing, element && values ? elementText(element, values) : '')
    },
    /** What each element says, by its id. */
    texts: () => elements.map((element) => ({ element, text: elementText(element) })),
  }
}

/** The call sign as a controller says it; none for others, or where the pack has none. */
function calledBy(pack: Pack, state: RunState, exchange: Exchange): string {
  const name = callSignFor(pack, exchange)
  const figure = name === undefined ? undefined : figuresFor(pack, saidValues(state), [name])[name]
  return figure ? sayOnRadio(figure, state.settings.radio ?? 'icao') : ''
}

const turnIsOpen = ({ turns }: RunState, { id }: ExchangeTurn) =>
  ['said', 'relaying', 'relayed', 'slipped'].includes(turns[id]?.status ?? '')
