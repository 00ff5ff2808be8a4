/**
 * Published phraseology as checks: what a station transmits, the read-back that is right, and one that is not. Words and
 * figures are the published ones; places and call signs are invented ones in their stead. Sources stand beside each, with
 * the mark under which they were found: looked up (the text was seen in a copy, named) or from memory.
 */

import { describe, expect, it } from 'vitest'
import type { Script } from '../../src/kernel/run/core/events.ts'
import { readPack } from '../../src/packs/read.ts'
import { talkRun } from '../kernel/run/talkFixture.ts'

interface Published {
  readonly what: string
  readonly source: string
  readonly role?: 'controller' | 'broadcast' | 'groundCrew'
  /** Names of what is said, with the words and the read-back of each. */
  readonly elements: readonly (readonly [label: string, says: string, readBack: string])[]
  /** As they stand in the transmission: figure -> its declaration and value. */
  readonly figures: Readonly<Record<string, readonly [declaration: string, value: string | number]>>
  /** The station's words in our form. */
  readonly transmitted: string
  readonly right: readonly string[]
  /** A read-back that is not right, and the answer to it. */
  readonly wrong: readonly (readonly [readBack: string, answer: string])[]
}

const CODE = 'kind: digits, length: 4'
const QNH = 'kind: altimeter, unit: hPa'
const PLACE = 'kind: choice, options: {copper: [copper ridge], willow: [willow lake]}'

const PUBLISHED: readonly Published[] = [
  {
    what: 'a route clearance',
    source: 'Doc 9432 form, 4000 feet, squawk 3456 (looked up: touch-english-and-go.com, clearances)',
    elements: [
      ['clearance limit', 'cleared to <limit>', '[cleared] [to] <limit>'],
      ['route', 'via flight planned route', '[via] flight planned route'],
      ['level', '<level> feet', '<level> [feet]'],
      ['squawk', 'squawk <code>', '[squawk] <code>'],
    ],
    figures: { limit: [PLACE, 'copper'], level: ['kind: altitude', 4000], code: [CODE, '3456'] },
    transmitted: 'Cleared to copper ridge, via flight planned route, four thousand feet, squawk three four five six.',
    right: [
      'cleared to copper ridge via flight planned route four thousand feet squawk three four five six',
      'cleared to copper ridge, flight planned route, four thousand feet, squawk tree fower fife six',
    ],
    wrong: [
      [
        'cleared to copper ridge via flight planned route four thousand feet squawk three four six five',
        'Negative, squawk three four five six.',
      ],
      ['cleared to copper ridge via flight planned route squawk three four five six', 'Read back level.'],
      ['roger', 'Read back.'],
    ],
  },
  {
    what: 'a setting that was read back wrong: negative, and the right version',
    source: 'ICAO Doc 9432: QNH 1006, read back 1016 (looked up: touch-english-and-go.com, clearances)',
    elements: [['altimeter', 'Q N H <qnh>', '[q n h] <qnh>']],
    figures: { qnh: [QNH, 1006] },
    transmitted: 'Q N H one zero zero six.',
    right: ['QNH one zero zero six', 'one zero zero six'],
    wrong: [['QNH one zero one six', 'Negative, Q N H one zero zero six.']],
  },
  {
    what: 'taxi to a holding point, short of another runway',
    source: 'ICAO Doc 4444 12.3.4.7 c), unfolded with A1, 09 and 30 (looked up: estamoscuriosos.me 110278)',
    elements: [
      ['holding point', 'taxi to holding point <point>', '[taxi] [to] [holding point] <point>'],
      ['runway', 'runway <runway>', '[runway] <runway>'],
      ['hold short', 'hold short of runway <other>', '(hold | holding) short [of] [runway] <other>'],
    ],
    figures: { point: ['kind: identifier', 'A1'], runway: ['kind: runway', '09'], other: ['kind: runway', '30'] },
    transmitted: 'Taxi to holding point alfa one, runway zero niner, hold short of runway three zero.',
    right: [
      'taxi to holding point alfa one, runway zero niner, hold short of runway three zero',
      'holding point alfa one runway zero niner, holding short of runway three zero',
    ],
    wrong: [
      ['taxi to holding point alfa one, runway zero niner', 'Read back hold short.'],
      [
        'taxi to holding point alfa one, runway zero niner, hold short of runway one two',
        'Negative, hold short of runway three zero.',
      ],
      [
        'taxi to holding point alfa two, runway zero niner, hold short of runway three zero',
        'Negative, taxi to holding point alfa one.',
      ],
    ],
  },
  {
    what: 'taxi by a route to an intersection',
    source: 'Eurocontrol: holding point C, runway 36, via A and C (looked up: estamoscuriosos.me 16129)',
    elements: [
      ['holding point', 'taxi to holding point <point>', '[taxi] [to] [holding point] <point>'],
      ['runway', 'runway <runway>', '[runway] <runway>'],
      ['route', 'via <route>', '[via] <route>'],
    ],
    figures: { point: ['kind: identifier', 'C'], runway: ['kind: runway', '36'], route: ['kind: route', 'A C'] },
    transmitted: 'Taxi to holding point charlie, runway three six, via alfa charlie.',
    right: ['taxi to holding point charlie, runway three six, via alfa and charlie'],
    wrong: [
      ['taxi to holding point charlie, runway three six, via alfa bravo charlie', 'Negative, via alfa charlie.'],
      ['taxi to holding point charlie, runway three four, via alfa charlie', 'Negative, runway three six.'],
    ],
  },
  {
    what: 'an FAA taxi instruction: the runway first, the hold short always read back',
    source:
      'FAA JO 7110.65 3-7-1 and 3-7-2: B, 18L (looked up: pointsixtyfive.com 03-07); AIM 4-3-18 a 9 (looked up: faraim.org)',
    elements: [
      ['runway', 'runway <runway>', '[runway] <runway>'],
      ['route', 'taxi via <route>', '[taxi] [via] <route>'],
      ['hold short', 'hold short of runway <other>', 'hold short [of] [runway] <other>'],
    ],
    figures: { runway: ['kind: runway', '26R'], route: ['kind: route', 'B'], other: ['kind: runway', '18L'] },
    transmitted: 'Runway two six right, taxi via bravo, hold short of runway one eight left.',
    right: ['runway two six right, taxi via bravo, hold short of runway one eight left'],
    wrong: [
      ['runway two six right, taxi via bravo', 'Read back hold short.'],
      [
        'runway two six right, taxi via bravo, hold short of runway one eight right',
        'Negative, hold short of runway one eight left.',
      ],
    ],
  },
  {
    what: 'level, frequency and code of a departure clearance',
    source: 'maintain 5000, departure frequency 124.30, squawk 7201 (looked up: ixdflyers.org, a training text)',
    elements: [
      ['level', 'maintain <level>', '[maintain] <level>'],
      ['frequency', 'departure frequency <frequency>', '[departure frequency | frequency] <frequency>'],
      ['squawk', 'squawk <code>', '[squawk] <code>'],
    ],
    figures: { level: ['kind: altitude', 5000], frequency: ['kind: frequency', 124.3], code: [CODE, '7201'] },
    transmitted: 'Maintain five thousand, departure frequency one two four decimal three, squawk seven two zero one.',
    right: [
      'maintain five thousand, departure frequency one two four point three zero, squawk seven two zero one',
      'five thousand, frequency one two four decimal three, squawk seven two zero one',
    ],
    wrong: [
      [
        'maintain five thousand, departure frequency one two four point one three, squawk seven two zero one',
        'Negative, departure frequency one two four decimal three.',
      ],
      [
        'maintain five thousand, departure frequency one two four point three, squawk seven two one zero',
        'Negative, squawk seven two zero one.',
      ],
    ],
  },
  {
    what: 'pushback with a direction',
    source: 'pushback approved facing south (looked up: wiki.xu.ivao.aero, pushback and start-up)',
    elements: [
      ['pushback', 'pushback approved', 'pushback approved'],
      ['direction', 'facing <direction>', '[face | facing] <direction>'],
    ],
    figures: { direction: ['kind: choice, options: {north: [north], south: [south]}', 'south'] },
    transmitted: 'Pushback approved, facing south.',
    right: ['pushback approved facing south', 'pushback approved, face south'],
    wrong: [
      ['pushback approved facing north', 'Negative, facing south.'],
      ['pushback approved', 'Read back direction.'],
    ],
  },
  {
    what: 'the brakes, between ground crew and flight crew',
    source: 'ICAO Doc 4444 12.7.2 (looked up: consultant.ru, phraseology of ground and flight crew, 97)',
    role: 'groundCrew',
    elements: [['brakes', 'confirm brakes set', 'brakes set']],
    figures: {},
    transmitted: 'Confirm brakes set.',
    right: ['brakes set'],
    wrong: [['brakes released', 'Negative, confirm brakes set.']],
  },
  {
    what: 'departure information: runway, wind, QNH, temperature',
    source: 'the order of MATS phraseology (looked up: flipbuilder jlgk p. 42); 160/18 from ICAO Annex 10 (looked up)',
    role: 'broadcast',
    elements: [
      ['runway', 'runway <runway>', '[runway] <runway>'],
      ['wind', 'wind <wind>', '[wind] <wind>'],
      ['altimeter', 'Q N H <qnh>', '[q n h] <qnh>'],
    ],
    figures: { runway: ['kind: runway', '27'], wind: ['kind: wind', '160/18'], qnh: [QNH, 1012] },
    transmitted: 'Runway two seven, wind one six zero degrees one eight knots, Q N H one zero one two.',
    right: ['runway two seven, wind one six zero degrees one eight knots, QNH one zero one two'],
    wrong: [
      [
        'runway two seven, wind one six zero degrees one eight knots, QNH one zero one three',
        // A broadcast answers nobody (common practice, no source); the other seat does.
        'I heard one zero one three. Altimeter?',
      ],
    ],
  },
]

/** The transmission as a pack of one exchange, which the station begins. */
function flown({ role = 'controller', elements, figures }: Published) {
  const declared = Object.entries(figures).map(
    ([name, [declaration]]) => `  ${name}: {label: ${name}, ${declaration}, entered: {}}`,
  )
  const said = elements.map(
    ([label, says, readBack], index) =>
      `              - {element: e${index}, label: ${label}, says: "${says}", readBack: "${readBack}"}`,
  )
  const { pack, problems } = readPack(
    {
      'pack.yaml': [
        'id: published',
        'name: Published',
        'version: "1"',
        'aircraft: none',
        'operator: none',
        'caution: For tests only.',
        'units: {weight: kg, arm: m}',
      ].join('\n'),
      'figures.yaml': declared.length > 0 ? `figures:\n${declared.join('\n')}` : 'figures: {}',
      'procedures.yaml': `phases:
  - phase: talk
    name: Talk
    activities:
      - exchange: published
        name: published
        with: {role: ${role}, name: Station}
        turns:
          - turn: one
            label: transmission
            calls: "go ahead"
            elements:
${said.join('\n')}
`,
    },
    '',
  )
  if (!pack) throw new Error(problems.map(({ message }) => message).join('\n'))
  const script: Script = {
    values: Object.fromEntries(Object.entries(figures).map(([name, [, value]]) => [name, value])),
  }
  return talkRun(script, pack).hear('go ahead')
}

describe.each(PUBLISHED)('$what ($source)', (published) => {
  const { role = 'controller', transmitted, right, wrong } = published

  it('is transmitted in the published words', () => {
    expect(flown(published).said()).toEqual([`${role}: ${transmitted}`])
  })

  it.each(right)('read back as "%s" is right', (text) => {
    expect(flown(published).hear(text).state.turns['published.one']?.status).toBe('done')
  })

  it.each(wrong)('read back as "%s" is answered "%s"', (text, answer) => {
    const run = flown(published).hear(text)
    expect(run.said()).toEqual([`${role === 'broadcast' ? 'otherseat' : role}: ${answer}`])
    expect(run.state.turns['published.one']?.status).toBe('said')
  })
})
