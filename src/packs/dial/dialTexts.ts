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
interface Made {
  readonly turns: Raw[]
  readonly figures: Record<string, Raw>
}

/** `lengths`: elements of each transmission, in order, `SHORTEST` to `LONGEST`. The same chance makes the same texts. */
export function dialTexts(dial: Dial, lengths: readonly number[], radio: 'icao' | 'faa', chance: Seeded): DialTexts {
  const figures: Record<string, Raw> = {
    callsign: { label: 'call sign', kind: 'callsign', telephony: TELEPHONY, constant: OWN },
    like: { label: 'like call sign', kind: 'callsign', telephony: TELEPHONY, constant: chance.pick(LIKE) },
    unlike: { label: 'other call sign', kind: 'callsign', telephony: TELEPHONY, constant: 'HARVEST 907' },
  }
  const steppedOn: Record<string, string> = {}
  const exchanges = lengths.map((length, at) => {
    const id = `r${at + 1}`
    const made: Made = { turns: [], figures }
    const station = STATIONS[(dial.handOvers ? at : 0) % STATIONS.length] ?? STATIONS[0]
    const next = dial.handOvers && at + 1 < lengths.length ? STATIONS[(at + 1) % STATIONS.length] : undefined
    const elements = chosen(length, next !== undefined, chance)
    // Who was handed over calls first.
    if (dial.handOvers && at > 0) made.turns.push(call(station))
    if (dial.standBy && at % OTHER_EVERY === 0) made.turns.push(...putOff(dial, radio, `${id}w`, made, chance))
    else if (dial.likeCallSigns) made.turns.push(others('like', radio, `${id}o`, made, chance))
    made.turns.push(transmission(id, elements, next, radio, made))
    const [amended] = elements.filter(({ id: one }) => one === 'level' || one === 'heading')
    if (dial.amendments && at % OTHER_EVERY === 1 && amended) made.turns.push(amendment(id, amended, radio, made))
    if (dial.steppedOn && at % STEPPED_ON_EVERY === 1) {
      steppedOn[`${id}.${COUNTED_TURN}`] = chance.pick(elements).id
    }
    const name = `${PLACE} ${station}`
    return {
      exchange: id,
      name: `read-back ${at + 1}`,
      with: { role: 'controller', name: capitals(name) },
      turns: made.turns,
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

function transmission(
  id: string,
  elements: readonly DialElement[],
  next: string | undefined,
  radio: 'icao' | 'faa',
  made: Made,
): Raw {
  return {
    ...{ turn: COUNTED_TURN, label: 'transmission', opens: CALL_SIGN },
    elements: elements.map((element) => {
      const figure = declared(`${id}${element.id}`, element, radio, made)
      if (element.id !== 'frequency' || next === undefined) return elementOf(element, figure, radio)
      const to = `${PLACE} ${next}`
      return {
        ...{ element: 'frequency', label: 'frequency', says: `contact ${to} <${figure}>` },
        readBack: `[contact] [${PLACE}] [${next}] [on] <${figure}>`,
      }
    }),
  }
}

/** "Stand by", and somebody else first. */
function putOff(dial: Dial, radio: 'icao' | 'faa', prefix: string, made: Made, chance: Seeded): Raw[] {
  const wait = { element: 'standBy', label: 'stand by', says: 'stand by' }
  return [
    { turn: 'standBy', label: 'stand by', opens: CALL_SIGN, elements: [wait] },
    others(dial.likeCallSigns ? 'like' : 'unlike', radio, prefix, made, chance),
  ]
}

/** For another call sign: nothing of it is to be read back. */
function others(callSign: 'like' | 'unlike', radio: 'icao' | 'faa', prefix: string, made: Made, chance: Seeded): Raw {
  const elements = chosen(OF_OTHERS, false, chance).map((element) => {
    const { readBack: _, ...said } = elementOf(element, declared(`${prefix}${element.id}`, element, radio, made), radio)
    return said
  })
  return { turn: 'other', label: 'another aircraft', opens: `<${callSign}>`, elements }
}

/** One element of it, with another value, once the first was read back. */
function amendment(id: string, element: DialElement, radio: 'icao' | 'faa', made: Made): Raw {
  const figure = declared(`${id}again`, element, radio, made)
  const opens = radio === 'icao' ? `${CALL_SIGN}, recleared` : `${CALL_SIGN}, amended clearance`
  return { turn: 'amendment', label: 'amendment', opens, elements: [elementOf(element, figure, radio)] }
}

function declared(name: string, element: DialElement, radio: 'icao' | 'faa', { figures }: Made): string {
  const { figure, from } = (radio === 'faa' ? element.faa : undefined) ?? element
  figures[name] = { ...figure, given: { group: 'Transmissions', from } }
  return name
}

function elementOf({ id, label, alsoCalled = [], says, readBack }: DialElement, figure: string, radio: 'icao' | 'faa') {
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
