/**
 * A pack of read-backs and nothing else: transmissions of a number of elements each, with what else is on the frequency
 * around them. It is written as texts, as every pack is, so the log of it can be replayed and debriefed as any other.
 */

import { stringify } from 'yaml'
import type { Dial } from '../../kernel/run/core/events.ts'
import type { Seeded } from '../../kernel/seeded.ts'
import { COUNTED_TURN } from '../../kernel/training/edge.ts'
import { DIAL_ELEMENTS, type DialElement, type DialWords } from './dialElements.ts'

export interface DialTexts {
  readonly texts: Readonly<Record<string, string>>
  /** Transmissions that are stepped on: turn -> the element that nobody hears. */
  readonly steppedOn: Readonly<Record<string, string>>
}

/** The stations of a flight, each of which hands over to the next. */
const STATIONS = ['delivery', 'ground', 'tower', 'departure', 'radar', 'control'] as const
const PLACE = 'heron hill'
/** Whoever else is on the frequency says so many elements. */
const OF_OTHERS = 2
/** One transmission in so many is stepped on, put off or amended, where these are wanted. */
const STEPPED_ON_EVERY = 3
const OTHER_EVERY = 2

type Raw = Readonly<Record<string, unknown>>
/** What all transmissions of a block are made with. */
interface Making {
  readonly dial: Dial
  readonly radio: 'icao' | 'faa'
  readonly chance: Seeded
  /** Grows with each that is declared. */
  readonly figures: Record<string, Raw>
}

/** `lengths`: elements of each transmission, in order, `SHORTEST` to `LONGEST`. The same chance makes the same texts. */
export function dialTexts(dial: Dial, lengths: readonly number[], radio: 'icao' | 'faa', chance: Seeded): DialTexts {
  const figures: Record<string, Raw> = {
    callsign: { label: 'call sign', kind: 'callsign', telephony: TELEPHONY, constant: OWN },
    like: { label: 'like call sign', kind: 'callsign', telephony: TELEPHONY, constant: chance.pick(LIKE) },
    unlike: { label: 'other call sign', kind: 'callsign', telephony: TELEPHONY, constant: 'HARVEST 907' },
  }
  const making: Making = { dial, radio, chance, figures }
  const steppedOn: Record<string, string> = {}
  const exchanges = lengths.map((length, at) => {
    const id = `r${at + 1}`
    const station = STATIONS[(dial.handOvers ? at : 0) % STATIONS.length] ?? STATIONS[0]
    const next = dial.handOvers && at + 1 < lengths.length ? STATIONS[(at + 1) % STATIONS.length] : undefined
    const elements = chosen(length, next !== undefined, chance)
    const before = turnsBefore(making, id, dial.standBy && at % OTHER_EVERY === 0)
    const amended = elements.find(({ id: one }) => one === 'level' || one === 'heading')
    const isAmended = dial.amendments && at % OTHER_EVERY === 1
    const turns = [
      // Who was handed over calls first.
      ...(dial.handOvers && at > 0 ? [call(station)] : []),
      ...before,
      transmission(making, id, elements, next),
      ...(isAmended && amended ? [amendment(making, id, amended)] : []),
    ]
    if (dial.steppedOn && at % STEPPED_ON_EVERY === 1) {
      steppedOn[`${id}.${COUNTED_TURN}`] = chance.pick(elements).id
    }
    const name = `${PLACE} ${station}`
    return {
      exchange: id,
      name: `read-back ${at + 1}`,
      with: { role: 'controller', name: capitals(name) },
      turns,
    }
  })
  const procedures = { phases: [{ phase: 'dial', name: 'Read-backs', activities: exchanges }] }
  return {
    texts: {
      'pack.yaml': written(ABOUT),
      'figures.yaml': written({ figures }),
      'procedures.yaml': written(procedures),
    },
    steppedOn,
  }
}

const TELEPHONY = ['Saltmarsh', 'Harvest']
const OWN = 'SALTMARSH 421'
/** A digit off, or two that changed places. */
const LIKE = ['SALTMARSH 412', 'SALTMARSH 427', 'SALTMARSH 241', 'SALTMARSH 521'] as const

const ABOUT = {
  id: 'read-backs',
  name: 'Read-backs',
  version: '1.0.0',
  aircraft: 'any: transmissions alone (invented)',
  operator: 'Saltmarsh Air (invented)',
  units: { weight: 'kg', arm: 'm' },
  caution:
    'For training and simulation only: clearances, places and frequencies are invented. Not for use in flight or on a real aircraft.',
}

/** Quoted throughout: a word such as "on" stays one. */
const written = (value: unknown) => stringify(value, { defaultStringType: 'QUOTE_DOUBLE', defaultKeyType: 'PLAIN' })

const capitals = (text: string) => text.replace(/\b[a-z]/g, (letter) => letter.toUpperCase())

/** So many elements, in the order in which they are said; whoever hands over says the frequency last. */
function chosen(length: number, isHandOver: boolean, chance: Seeded): DialElement[] {
  const left = [...DIAL_ELEMENTS]
  const taken = new Set<DialElement>()
  const frequency = left.find(({ id }) => id === 'frequency')
  if (isHandOver && frequency) taken.add(frequency)
  while (taken.size < Math.min(length, left.length)) taken.add(chance.pick(left))
  return left.filter((one) => taken.has(one))
}

const CALL_SIGN = '<callsign>'

function call(station: string): Raw {
  const name = `${PLACE} ${station}`
  return {
    ...{ turn: 'call', label: `call ${name}`, calls: `[${PLACE}] ${station} [<callsign>] [with you | good day]` },
    ...{ opens: `<callsign>, ${name}`, elements: [] },
  }
}

function transmission(making: Making, id: string, elements: readonly DialElement[], next: string | undefined): Raw {
  return {
    ...{ turn: COUNTED_TURN, label: 'transmission', opens: CALL_SIGN },
    elements: elements.map((element) => {
      const figure = declared(making, `${id}${element.id}`, element)
      if (element.id !== 'frequency' || next === undefined) return elementOf(making, element, figure)
      const to = `${PLACE} ${next}`
      return {
        ...{ element: 'frequency', label: 'frequency', says: `contact ${to} <${figure}>` },
        readBack: `[contact] [${PLACE}] [${next}] [on] <${figure}>`,
      }
    }),
  }
}

/** What comes before it: somebody else's clearance, "stand by" and somebody else's, or nothing. */
function turnsBefore(making: Making, id: string, isPutOff: boolean): Raw[] {
  const { likeCallSigns } = making.dial
  if (!isPutOff) return likeCallSigns ? [others(making, 'like', id)] : []
  const wait = { element: 'standBy', label: 'stand by', says: 'stand by' }
  return [
    { turn: 'standBy', label: 'stand by', opens: CALL_SIGN, elements: [wait] },
    others(making, likeCallSigns ? 'like' : 'unlike', id),
  ]
}

/** For another call sign: nothing of it is to be read back. */
function others(making: Making, callSign: 'like' | 'unlike', id: string): Raw {
  const elements = chosen(OF_OTHERS, false, making.chance).map((element) => {
    const { readBack: _, ...said } = elementOf(making, element, declared(making, `${id}o${element.id}`, element))
    return said
  })
  return { turn: 'other', label: 'another aircraft', opens: `<${callSign}>`, elements }
}

/** One element of it, with another value, once the first was read back. */
function amendment(making: Making, id: string, element: DialElement): Raw {
  const figure = declared(making, `${id}again`, element)
  const opens = making.radio === 'icao' ? `${CALL_SIGN}, recleared` : `${CALL_SIGN}, amended clearance`
  return { turn: 'amendment', label: 'amendment', opens, elements: [elementOf(making, element, figure)] }
}

function declared({ radio, figures }: Making, name: string, element: DialElement): string {
  const { figure, from } = (radio === 'faa' ? element.faa : undefined) ?? element
  figures[name] = { ...figure, given: { group: 'Transmissions', from } }
  return name
}

function elementOf({ radio }: Making, { id, label, alsoCalled = [], says, readBack }: DialElement, figure: string) {
  const filled = (text: string) => text.replace('#', figure)
  return {
    element: id,
    label,
    alsoCalled: [...alsoCalled],
    says: filled(worded(says, radio)),
    readBack: filled(readBack),
  }
}

const worded = (words: DialWords, radio: 'icao' | 'faa') => (typeof words === 'string' ? words : words[radio])
