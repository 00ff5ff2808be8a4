/**
 * What a voice outside the crew says: the pack's wordings with this departure's values in them, and the standard
 * phrases around them. Values are spoken here, since one has to hear them from a station; Otherseat itself never does.
 */

import { sayOnRadio } from '../../kinds/table.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { Element, Exchange, ExchangeTurn, Wording } from '../../pack/exchange.ts'
import { figuresFor, holds } from '../../pack/place.ts'
import type { Role } from '../../pack/roles.ts'
import { fillTemplate } from '../../pack/template.ts'
import type { Slip } from '../core/events.ts'
import type { RunState } from '../core/state.ts'
import { saidValues, slippedValue } from './said.ts'

/** Something to be said in one of the voices. */
export interface Speech {
  readonly role: Role
  readonly text: string
}

/** Fixed phrases of the stations, for an embedded voice. */
export const STATION_PHRASES = [
  'negative',
  'affirm',
  'correct',
  'read back',
  'read back correct',
  'say again',
  'I say again',
  'confirm',
  'standing by',
  'stopping',
  'confirm brakes set',
  'and',
] as const

const sentence = (...parts: readonly string[]) => {
  const text = parts.filter((part) => part !== '').join(', ')
  return text === '' ? '' : `${text[0]?.toUpperCase()}${text.slice(1)}.`
}

/** The ground crew at "stop", at once and before anything else. */
export const groundStopping = ({ station: { role } }: Exchange): readonly Speech[] => [
  { role, text: `${sentence('stopping')} ${sentence('confirm brakes set')}` },
]

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

type Radioed = Pick<RunState, 'situation' | 'settings'>

/** Those that apply, in the order of the phraseology. */
function elementsOf(turn: ExchangeTurn, { situation, settings }: Radioed): Element[] {
  const applying = turn.elements.filter((element) => holds(element.when, situation))
  const { faaOrder } = turn
  if (settings.radio !== 'faa' || !faaOrder) return applying
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

/** Words of one turn by what they are for, each as speech in the voice of its station; none where it has nothing to say. */
export function stationWords(pack: Pack, state: RunState, exchange: Exchange, turn: ExchangeTurn) {
  const { role } = exchange.station
  const speech = (text: string): Speech[] => (text === '' ? [] : [{ role, text }])
  const elementText = (element: Element, values?: RunState['values']) =>
    worded(pack, state, element.says, values ?? saidValues(state))
  const named = (id: string) => turn.elements.find((element) => element.id === id)
  const whole = () =>
    speech(sentence(worded(pack, state, turn.opens), ...elementsOf(turn, state).map((element) => elementText(element))))
  return {
    /** The whole of what it has to say. */
    whole,
    /** A broadcast runs from its beginning whatever was asked for. */
    again: (id?: string) => {
      if (role === 'broadcast') return whole()
      const element = id === undefined ? undefined : named(id)
      const texts = element
        ? [elementText(element)]
        : ['I say again', worded(pack, state, turn.opens), ...elementsOf(turn, state).map((each) => elementText(each))]
      return speech(sentence(...texts))
    },
    /** The right version of what was read back wrong. */
    negative: (ids: readonly string[]) =>
      speech(
        sentence(
          'negative',
          ...ids.flatMap((id) => {
            const element = named(id)
            return element ? [elementText(element)] : []
          }),
        ),
      ),
    /** Elements that are missing, by their names. */
    readBack: (labels: readonly string[]) => speech(sentence(`read back ${labels.join(', ')}`)),
    confirm: (labels: readonly string[]) => speech(sentence(`confirm ${labels.join(', ')}`)),
    sayAgain: () => speech(sentence('say again')),
    affirm: (id: string) => {
      const element = named(id)
      return speech(sentence('affirm', element ? elementText(element) : ''))
    },
    /** All was right; a slip says a figure with another value after that. */
    closes: (slip?: Slip) => {
      const closing = turn.closes ? worded(pack, state, turn.closes) : role === 'controller' ? 'read back correct' : ''
      const element = slip && turn.elements.find((each) => each.says.icao.figures.includes(slip.figure))
      const other = slip && slippedValue(pack, state, slip)
      const values = slip && other !== undefined ? { ...saidValues(state), [slip.figure]: other } : undefined
      return speech(sentence(closing, element && values ? elementText(element, values) : ''))
    },
  }
}
