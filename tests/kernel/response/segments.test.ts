/** A transmission cut into what was said of each element, by words and kinds. */

import { describe, expect, it } from 'vitest'
import type { Specs } from '../../../src/kernel/kinds/kind.ts'
import { tokensOf } from '../../../src/kernel/numbers/tokens.ts'
import { type CueOwner, cuesOf } from '../../../src/kernel/response/cues.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import { segmentsOf } from '../../../src/kernel/response/segments.ts'

const SPECS: Specs = {
  limit: { kind: 'choice', options: { corrie: ['corrie'], twelve: ['twelve'], melton: ['melton two'] } },
  level: { kind: 'altitude', unit: 'ft' },
  squawk: { kind: 'digits', length: 4 },
  runway: { kind: 'runway' },
  departing: { kind: 'runway' },
  point: { kind: 'identifier' },
  gate: { kind: 'identifier' },
  route: { kind: 'route' },
  sign: { kind: 'callsign', telephony: ['Tidewick', 'Blue Heron'] },
  frequency: { kind: 'frequency' },
  wind: { kind: 'wind' },
  qnh: { kind: 'altimeter', unit: 'hPa' },
}
const cuesIn = (responses: readonly string[]) =>
  cuesOf(
    responses.map((text) => ({ id: text, response: responseFrom(text) })),
    SPECS,
  )

const CLEARANCE = [
  '[cleared] [to] <limit>',
  '[climb] [to] <level>',
  '[squawk] <squawk>',
  'hold short {hold} [of] [runway] <runway>',
  '[runway] <departing>',
]
const TAXI = ['[taxi] [to] [holding point] <point>', '[at] <gate>', '[via] <route>', '[runway] <runway>']

/** The place of the element before its words. */
const segments = (responses: readonly string[], heard: string, held: readonly number[] = []) =>
  segmentsOf(cuesIn(responses), tokensOf(heard), new Set(held))
    .map(({ element, tokens }) => `${element < 0 ? 'nobody' : element}: ${tokens.map(({ text }) => text).join(' ')}`)
    .join(' | ')

describe('a segment', () => {
  it.each([
    [
      'roger cleared to corrie climb to five thousand squawk four two seven one',
      'nobody: roger | 0: cleared to corrie | 1: climb to five thousand | 2: squawk four two seven one',
    ],
    ['climb five thousand climb six thousand', '1: climb five thousand | 1: climb six thousand'],
    ['climb and climb five thousand', '1: climb and climb five thousand'],
    ['corrie corrie', '0: corrie | 0: corrie'],
    ['corrie melton to five thousand', '0: corrie | 0: melton to five thousand'],
    ['cleared to corrie cleared to melton', '0: cleared to corrie | 0: cleared to melton'],
    ['twelve squawk', 'nobody: twelve | 2: squawk'],
    ['cross runway two two left', '3: cross runway two two left'],
    ['short two two left', '3: short two two left'],
    ['holding short of two two left', '3: holding short of two two left'],
  ])('begins with the words of an element: "%s"', (heard, cut) => {
    expect(segments(CLEARANCE, heard)).toBe(cut)
  })

  it.each([
    ['five thousand to climb six', 'nobody: five thousand | 1: to climb six'],
    ['corrie to climb five thousand', '0: corrie | 1: to climb five thousand'],
    ['corrie to squawk one', '0: corrie to | 2: squawk one'],
    ['five thousand of climb six', 'nobody: five thousand of | 1: climb six'],
  ])('begins with a "to" only if its element has one: "%s"', (heard, cut) => {
    expect(segments(CLEARANCE, heard)).toBe(cut)
  })
})

describe('words that two elements share', () => {
  it.each([
    ['begin the one that they begin', 'runway two two left', [], '4: runway two two left'],
    ['begin it again', 'runway one runway two', [], '4: runway one | 4: runway two'],
    ['begin the other if that one was said before', 'runway two two left', [4], '3: runway two two left'],
    ['begin that one if both were', 'runway two two left', [3, 4], '4: runway two two left'],
    [
      'go on with the one under way until it has its number',
      'hold short of runway two two left runway zero nine',
      [],
      '3: hold short of runway two two left | 4: runway zero nine',
    ],
    [
      'begin both where one was said before',
      'runway two two left runway zero nine',
      [4],
      '3: runway two two left | 4: runway zero nine',
    ],
  ])('%s: "%s"', (_, heard, held, cut) => {
    expect(segments(CLEARANCE, heard, held)).toBe(cut)
  })

  const departures = ['[departure] <runway>', '[departure] <frequency>', '[departure] [level] <level>']
  it.each([
    ['departure two two left', '0: departure two two left'],
    ['departure is one two zero decimal one', '1: departure is one two zero decimal one'],
    ['departure to nine thousand five hundred', '2: departure to nine thousand five hundred'],
    ['departure one two zero decimal one roger', '1: departure one two zero decimal one roger'],
    ['departure banana one two zero decimal one', '0: departure banana one two zero decimal one'],
    ['departure level', '2: departure level'],
    ['departure banana', '0: departure banana'],
  ])('go to the one that fits what follows: "%s"', (heard, cut) => {
    expect(segments(departures, heard)).toBe(cut)
  })
})

it('words that begin two elements begin each of them once', () => {
  const runways = ['[runway] <runway>', '[runway] <departing>']
  expect(segments(runways, 'runway one runway two')).toBe('0: runway one | 1: runway two')
})

describe('a correction', () => {
  it.each([
    [
      'belongs to what was said just before',
      'corrie climb five thousand correction six thousand squawk one',
      '0: corrie | 1: climb five thousand correction six thousand | 2: squawk one',
    ],
    [
      'goes back to the element that it names',
      'climb five thousand squawk one correction and climb six thousand',
      '2: squawk one | 1: climb five thousand correction and climb six thousand',
    ],
    [
      'goes back to all that was said of it',
      'climb five thousand climb six thousand squawk one correction climb seven thousand',
      '2: squawk one | 1: climb five thousand climb six thousand correction climb seven thousand',
    ],
    [
      'begins an element that was not said',
      'squawk four two seven one correction climb five thousand',
      '2: squawk four two seven one | 1: climb five thousand',
    ],
    [
      'keeps to the element with the shared words',
      'hold short runway zero nine correction runway one zero',
      '3: hold short runway zero nine correction runway one zero',
    ],
    [
      'of shared words goes to the one said last',
      'hold short runway zero nine squawk one correction runway one zero',
      '2: squawk one | 3: hold short runway zero nine correction runway one zero',
    ],
    [
      'of shared words goes to the one said last, whichever that is',
      'runway zero nine squawk one correction runway one zero',
      '2: squawk one | 4: runway zero nine correction runway one zero',
    ],
    ['takes no "to" from what is before it', 'corrie to correction climb five', '0: corrie to | 1: climb five'],
    ['keeps the "to" behind it', 'squawk one correction to climb five', '2: squawk one | 1: to climb five'],
    ['may stand first', 'correction climb five thousand', '1: climb five thousand'],
    ['may stand last', 'climb five thousand correction and', '1: climb five thousand correction and'],
  ])('%s: "%s"', (_, heard, cut) => {
    expect(segments(CLEARANCE, heard)).toBe(cut)
  })

  it('begins a new count of what was said', () => {
    expect(segments(CLEARANCE, 'climb one correction climb two climb three')).toBe(
      '1: climb one correction climb two | 1: climb three',
    )
    expect(segments(CLEARANCE, 'climb one correction climb climb three')).toBe(
      '1: climb one correction climb climb three',
    )
  })
})

describe('a taxi clearance', () => {
  it.each([
    ['taxi to alfa three via bravo via charlie', [], '0: taxi to alfa three | 2: via bravo via charlie'],
    ['via bravo two via charlie', [], '2: via bravo two via charlie'],
    ['taxi alfa three at bravo two', [], '0: taxi alfa three | 1: at bravo two'],
    ['taxi alfa three at bravo two at charlie', [], '0: taxi alfa three | 1: at bravo two at charlie'],
    ['taxi alfa at bravo two', [], '0: taxi alfa at bravo two'],
    ['at alfa three', [], 'nobody: at alfa three'],
    ['runway two two left at alfa three', [], '3: runway two two left | 1: at alfa three'],
    ['runway two two left at alfa three', [1], '3: runway two two left at alfa three'],
    ['runway two two left at five', [], '3: runway two two left at five'],
  ])('"%s" (%j held)', (heard, held, cut) => {
    expect(segments(TAXI, heard, held)).toBe(cut)
  })

  it('has no place after the "at" of a wind', () => {
    const heard = 'wind two four zero at charlie'
    expect(segments(['[at] <gate>', '[wind] <wind>'], heard)).toBe(`1: ${heard}`)
  })

  it('has no place after "at" where its element is no identifier, or its response has no "at"', () => {
    expect(segments(['[runway] <runway>', '[at] <wind>'], 'runway two two left at alfa')).toBe(
      '0: runway two two left at alfa',
    )
    expect(segments(['[runway] <runway>', '[gate] <gate>'], 'runway two two left at alfa')).toBe(
      '0: runway two two left at alfa',
    )
  })
})

describe('an element is known by', () => {
  const known = (...responses: string[]) =>
    cuesIn(responses).all.map(({ words, isValue }) => (isValue ? `<${words.join(' ')}>` : words.join(' ')))
  const ownersOf = (responses: readonly string[], words: string) =>
    cuesIn(responses).all.find((cue) => cue.words.join(' ') === words)?.owners ?? []
  const elements = (owners: readonly CueOwner[]) => owners.map(({ element }) => element)

  it.each([
    ['[cleared] [to] <limit>', ['<melton 2>', 'cleared', '<corrie>']],
    ['[<sign>]', ['<blue heron>', '<tidewick>']],
    ['[at] <wind>', ['wind']],
    ['[holding point] <point>', ['holding point', 'information', 'taxiway', 'stand', 'gate', 'holding']],
    ['the', []],
    [
      'hold short {hold} [of] <runway>',
      [
        ...['cleared for take off', 'cleared to cross', 'cleared for takeoff', 'cleared take off', 'hold short'],
        ...['holding short', 'short of', 'cleared across', 'line up', 'lining up', 'cleared takeoff', 'take off'],
        ...['cross', 'crossing', 'takeoff', 'short', 'runway'],
      ],
    ],
    ['listen then <unknown>', ['listen then']],
  ])('its words, the names of its values or of its kind, longest first: %s', (response, words) => {
    expect(known(response)).toEqual(words)
  })

  it('a name of its kind only where no other response has the word', () => {
    expect(elements(ownersOf(['<point>', '[at] <gate>'], 'stand'))).toEqual([0, 1])
    expect(elements(ownersOf(['<point>', '[stand] <gate>'], 'stand'))).toEqual([1])
  })

  it('a word once, however often its response has it', () => {
    expect(elements(ownersOf(['(runway <runway> | runway <departing>)'], 'runway'))).toEqual([0])
  })

  it('a word and a name that are alike, each by itself', () => {
    expect(known('[corrie] <level>', '<limit>')).toEqual(['<melton 2>', 'corrie', 'altitude', '<corrie>'])
  })

  it('words that come before, are, or follow its values', () => {
    const read = ['read back <qnh> [and] done']
    expect(ownersOf(read, 'read back')).toEqual([
      { element: 0, part: 'qnh', spec: SPECS.qnh, begins: true, isValue: false, isImplied: false },
    ])
    expect(ownersOf(read, 'done')).toEqual([
      { element: 0, part: 'done', spec: undefined, begins: false, isValue: false, isImplied: false },
    ])
    expect(ownersOf(['[to] <limit>'], 'corrie')).toEqual([
      { element: 0, part: 'limit', spec: SPECS.limit, begins: true, isValue: true, isImplied: false },
    ])
    expect(ownersOf(['<qnh> [and] done'], 'done')).toMatchObject([{ begins: false }])
    expect(ownersOf(['hold short {hold} [runway] <runway>'], 'runway')).toMatchObject([{ begins: false }])
    expect(ownersOf(['<level> [squawk] <squawk>'], 'squawk')).toMatchObject([{ begins: true }])
  })
})
