/**
 * Read-backs and calls in the words that pilots use among themselves, all of them right: tuning data, made up while the
 * rules were written. `madeWrong` turns each into wrong ones by rule.
 */

import type { Figures } from '../../src/kernel/kinds/kind.ts'
import { transcriptOf } from '../../src/kernel/numbers/tokens.ts'
import { judgeCall } from '../../src/kernel/response/call.ts'
import type { Judgement } from '../../src/kernel/response/model.ts'
import { judgeReadBack } from '../../src/kernel/response/readBack.ts'
import { responseFrom } from '../../src/kernel/response/response.ts'
import type { SpokenElement } from '../../src/kernel/response/spokenElement.ts'

export interface Radio {
  readonly name: string
  /** Empty for a call, which is one response. */
  readonly elements: readonly SpokenElement[]
  readonly call?: string
  readonly figures: Figures
  readonly right: readonly string[]
  /** Values that may be left out. */
  readonly needNot?: readonly string[]
}

const SIGN: Figures = { sign: { kind: 'callsign', telephony: ['Heron', 'Bittern'], value: 'HERON 538' } }
const said = (id: string, notation: string): SpokenElement => ({ id, response: responseFrom(notation) })
const SIGNED = said('sign', '[<sign>]')

const lines = (text: string) =>
  text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')

export const RADIO: readonly Radio[] = [
  {
    name: 'a departure clearance',
    elements: [
      said('limit', '[cleared] [to] <limit> [airport]'),
      said('departure', '[via] <departure> [departure]'),
      said('runway', '[runway] <runway>'),
      said('level', '[climb] [to] [altitude] <level> [feet]'),
      said('frequency', '[departure frequency | frequency] <frequency>'),
      said('squawk', '[squawk] <squawk>'),
      SIGNED,
    ],
    figures: {
      ...SIGN,
      limit: { kind: 'choice', value: 'Oxbow', options: { Oxbow: ['oxbow'], Millrace: ['millrace'] } },
      departure: {
        kind: 'choice',
        value: 'PELL3C',
        options: { PELL3C: ['pell three charlie'], PELL3D: ['pell three delta'] },
      },
      runway: { kind: 'runway', value: '17' },
      level: { kind: 'altitude', value: 6000 },
      frequency: { kind: 'frequency', value: 123.7 },
      squawk: { kind: 'digits', length: 4, value: '5203' },
    },
    right: lines(`
      cleared oxbow, pell three charlie, one seven, six thousand, one two three decimal seven, five two zero three, heron five three eight
      heron five three eight, oxbow via pell three charlie off one seven, up to six thousand, twenty three seven for departure, fifty two oh three on the squawk
      good morning, heron five thirty eight, pell three charlie off runway one seven to oxbow, six thousand feet, one twenty three seven, squawking five two zero three
      five two zero three in the box, oxbow, pell three charlie departure, runway one seven, climbing six thousand, departure on one two three decimal seven, five three eight
      okay, that's oxbow, pell three charlie, runway seventeen, six thousand initially, one twenty three point seven, and five two oh three coming down, cheers, heron five three eight
      cleared oxbow, pell three charlie, out of one seven, climb six thousand, departure one two three seven, squawk five two zero three, thanks, bye, heron five three eight
      oxbow, pell three charlie, one seven, six thousand, departure twenty three seven, squawk five zero two three, correction, five two zero three, heron five three eight
      oxbow, pell three charlie, one seven, five thousand, sorry, six thousand, twenty three seven, fifty two zero three, heron five three eight`),
  },
  {
    name: 'another level and frequency',
    elements: [
      said('level', '[climb] [to] <cruise>'),
      said('squawk', '[squawk] <squawk>'),
      said('ground', '[contact] [ground] [on] <frequency>'),
      SIGNED,
    ],
    figures: {
      ...SIGN,
      cruise: { kind: 'flightLevel', value: 140 },
      squawk: { kind: 'digits', length: 4, value: '4615' },
      frequency: { kind: 'frequency', value: 118.9 },
    },
    right: lines(`
      flight level one four zero, four six one five, ground one one eight decimal niner, heron five three eight
      heron five three eight, recleared one four zero, forty six fifteen on the squawk, eighteen nine for ground, so long
      up to flight level one forty, new squawk four six one five, over to ground on one eighteen nine, good day, five three eight
      ground eighteen nine, squawk four six one five, climbing flight level one four zero, heron five thirty eight`),
  },
  {
    name: 'a taxi clearance',
    elements: [
      said('point', '[taxi] [to | at] [holding point] <point>'),
      said('runway', '[runway] <runway>'),
      said('route', '[via] <route>'),
      said('hold', '(hold short | holding short) {hold} [of] [runway] <crossing>'),
      said('qnh', '[q n h | altimeter] <qnh>'),
      SIGNED,
    ],
    figures: {
      ...SIGN,
      point: { kind: 'identifier', value: 'D4' },
      runway: { kind: 'runway', value: '17' },
      route: { kind: 'route', value: 'B F' },
      crossing: { kind: 'runway', value: '26' },
      qnh: { kind: 'altimeter', value: 1021, unit: 'hPa' },
    },
    right: lines(`
      delta four for one seven via bravo foxtrot, short of two six, ten twenty one, heron five three eight
      heron five three eight, bravo and foxtrot to delta four, runway seventeen, holding short of runway twenty six, one zero two one
      hold short of runway two six, runway one seven, delta four via bravo, foxtrot, q n h one zero two one, heron five three eight
      okay, taxi delta four, one seven, via bravo then foxtrot, we will hold short two six, altimeter ten twenty one, five three eight
      ten twenty one, delta four, runway one seven, via bravo, golf, make that bravo, foxtrot, hold short two six, thanks, heron five thirty eight`),
  },
  {
    name: 'a crossing',
    elements: [said('cross', '(cross | crossing) {cross} [runway] <crossing>'), SIGNED],
    figures: { ...SIGN, crossing: { kind: 'runway', value: '26' } },
    right: lines(`
      crossing two six, will report vacated, heron five three eight
      heron five thirty eight is crossing twenty six, call you clear
      cleared to cross runway two six, wilco, heron five three eight, cheers`),
  },
  {
    name: 'a way to give',
    elements: [
      said('route', '[continue] [taxi] [via] <route>'),
      said('hold', '(hold short | holding short) {hold} [of] <taxiway>'),
      SIGNED,
    ],
    figures: { ...SIGN, route: { kind: 'route', value: 'H' }, taxiway: { kind: 'identifier', value: 'K' } },
    right: lines(`
      behind the traffic from the right, hotel, short of kilo, heron five three eight
      traffic in sight, giving way, then via hotel, hold short of kilo, heron five thirty eight
      heron five three eight, after him continue hotel, holding short kilo`),
  },
  {
    name: 'a frequency to monitor',
    elements: [said('tower', '[monitor | monitoring] [tower] [on] <tower>'), SIGNED],
    figures: { ...SIGN, tower: { kind: 'frequency', value: 119.4 } },
    right: lines(`
      nineteen four, heron five three eight, see you
      monitoring tower on one one nine decimal four, heron five three eight
      heron five thirty eight, over to tower one nineteen four, good night`),
  },
  {
    name: 'a push',
    elements: [said('push', 'push [and start] approved'), said('direction', '[face | facing] <direction>'), SIGNED],
    figures: {
      ...SIGN,
      direction: {
        kind: 'choice',
        value: 'north',
        options: { north: ['north'], south: ['south'], east: ['east'], west: ['west'] },
      },
    },
    right: lines(`
      push and start, nose north, heron five three eight
      cleared push and start, facing north, thanks, heron five three eight
      facing north, push and start approved, five three eight`),
  },
  {
    name: 'information',
    elements: [
      said('letter', 'information <letter>'),
      said('time', '[time <time>]'),
      said('runway', '[departure] [runway] <runway>'),
      said('wind', '[wind] <from> [degrees] [at] <force> [knots]'),
      said('temperature', '[temperature <temperature>]'),
      said('dewPoint', '[dew point <dewPoint>]'),
      said('qnh', '[q n h | altimeter] <qnh>'),
    ],
    figures: {
      letter: { kind: 'identifier', value: 'S' },
      time: { kind: 'time', value: '0850' },
      runway: { kind: 'runway', value: '17' },
      from: { kind: 'heading', value: 190 },
      force: { kind: 'integer', value: 14, min: 0, max: 99 },
      temperature: { kind: 'temperature', value: 16, unit: 'C' },
      dewPoint: { kind: 'temperature', value: 11, unit: 'C' },
      qnh: { kind: 'altimeter', value: 1016, unit: 'hPa' },
    },
    needNot: ['sixteen'],
    right: lines(`
      got sierra, one seven in use, one ninety at fourteen, ten sixteen on the q n h
      sierra, zero eight five zero zulu, runway seventeen, wind one nine zero at one four, sixteen over eleven, one zero one six
      information sierra, landing one seven, winds one nine zero, fourteen knots, sixteen, dew point eleven, altimeter ten sixteen`),
  },
  {
    name: 'a call for push',
    elements: [],
    call: '[mill ground] [<sign>] [stand <stand>] [information <letter>] request (push | pushback) [and start]',
    figures: { ...SIGN, stand: { kind: 'identifier', value: '27' }, letter: { kind: 'identifier', value: 'S' } },
    needNot: ['sierra'],
    right: lines(`
      mill ground, morning, heron five three eight, stand two seven, sierra, could we have push and start
      ground, heron five thirty eight on stand twenty seven with sierra, ready for push and start please
      heron five three eight, stand two seven with sierra, push and crank`),
  },
  {
    name: 'a call that a runway is vacated',
    elements: [],
    call: '[mill ground] [<sign>] (runway <crossing> vacated | runway vacated)',
    figures: { ...SIGN, crossing: { kind: 'runway', value: '26' } },
    right: lines(`
      ground, heron five three eight has vacated two six
      heron five thirty eight is clear of runway twenty six, thanks`),
  },
]

export function judged({ elements, call, figures }: Radio, text: string): Judgement {
  const heard = transcriptOf(text)
  if (call === undefined) return judgeReadBack(elements, { heard, figures })
  const response = calls.get(call) ?? responseFrom(call)
  calls.set(call, response)
  return judgeCall({ response, heard, figures })
}
const calls = new Map<string, ReturnType<typeof responseFrom>>()

const GROUPS: readonly (readonly string[])[] = [
  'zero one two three four five six seven eight nine'.split(' '),
  'ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(' '),
  'twenty thirty forty fifty sixty seventy eighty ninety'.split(' '),
  'alfa bravo charlie delta echo foxtrot golf hotel kilo lima november papa sierra tango'.split(' '),
  ['north', 'south', 'east', 'west'],
  ['oxbow', 'millrace'],
  ['hold', 'cross'],
  ['holding', 'crossing'],
  ['cross', 'hold short of'],
  ['crossing', 'holding short of'],
  ['monitor', 'contact'],
  ['monitoring', 'contacting'],
  ['approved', 'denied'],
  ['nose', 'tail'],
]
const isValueWord = (word: string) => GROUPS.slice(0, 4).some((group) => group.includes(word))
/** Beside one of these a number says nothing that is asked. */
const BESIDE = new Set(['in', 'k', 'minutes', 'the'])
const MARKS = ['correction', 'sorry', 'make that', 'no', 'wait']

/** Every line with one word of it made another, two neighbours swapped, or a word of a value left out. */
export function madeWrong(text: string, needNot: readonly string[] = []): readonly string[] {
  const words = text.replaceAll(',', '').split(' ')
  const text2 = words.join(' ')
  const last = Math.max(...MARKS.map((mark) => ` ${text2} `.lastIndexOf(` ${mark} `)))
  const from = last < 0 ? 0 : text2.slice(0, last).split(' ').length
  // What a correction replaces was wrong before.
  const begin = MARKS.some((mark) => ` ${text2} `.includes(` ${mark} `)) ? from : 0
  const made: string[] = []
  for (let at = begin; at < words.length; at++) {
    const word = words[at] ?? ''
    const [before = '', next = ''] = [words[at - 1], words[at + 1]]
    for (const group of GROUPS) {
      if (!group.includes(word)) continue
      if (group[0] === 'hold' && (word === 'hold' ? next !== 'short' : false)) continue
      for (const other of group) if (other !== word) made.push(words.with(at, other).join(' '))
    }
    if (!isValueWord(word) || BESIDE.has(before) || BESIDE.has(next)) continue
    if (isValueWord(next) && next !== word)
      made.push(
        words
          .with(at, next)
          .with(at + 1, word)
          .join(' '),
      )
    // "One twenty one six" and "twenty one six" are the same.
    const isHundred = word === 'one' && /^(twenty|thirty|eighteen|nineteen)$/.test(next)
    if (!isHundred && !needNot.includes(word)) made.push(words.toSpliced(at, 1).join(' '))
  }
  return made
}
