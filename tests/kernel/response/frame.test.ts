/** One way through a response: its slots, the phrases that mean something to it and the words that change nothing. */

import { describe, expect, it } from 'vitest'
import type { Specs } from '../../../src/kernel/kinds/kind.ts'
import { tokensOf } from '../../../src/kernel/numbers/tokens.ts'
import { type Frame, makeFrame } from '../../../src/kernel/response/frame.ts'
import type { KnownPhrase } from '../../../src/kernel/response/framePhrases.ts'
import type { Path, Slot } from '../../../src/kernel/response/path.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'

const SPECS: Specs = {
  trim: { kind: 'trim', decimals: 1 },
  takeoffTrim: { kind: 'trim', decimals: 1 },
  v1: { kind: 'speed' },
  vr: { kind: 'speed' },
  heading: { kind: 'heading' },
  runway: { kind: 'runway' },
  crossing: { kind: 'runway' },
  level: { kind: 'altitude', unit: 'ft' },
  one: { kind: 'integer' },
  full: { kind: 'integer' },
  number: { kind: 'integer' },
  route: { kind: 'route' },
}

function frameOf(text: string, states: readonly (readonly string[])[] = [], challenge = ''): Frame {
  return makeFrame(responseFrom(text).paths[0] as Path, SPECS, states, tokensOf(challenge))
}

/** The phrases of a type with their slot, in the order of the alphabet; "!" for the response's own words. */
function phrases(frame: Frame, type: KnownPhrase['type']): string[] {
  const known = [...frame.phrases.values()].flat().filter((each) => each.type === type)
  return [...new Set(known.map(({ slot, phrase, literal }) => `${slot} ${phrase.text}${literal ? '!' : ''}`))].sort()
}

describe('the labels of a figure', () => {
  it.each([
    ['rotate <vr> <heading>', ['0 airspeed', '0 rotate!', '0 rotation', '0 speed', '0 v r', '0 v rotate', '0 vr']],
    ['V one <v1> <vr>', ['0 decision', '0 v one!', '0 v1', '0 vee one']],
    ['<takeoffTrim> <trim>', ['0 takeoff trim']],
    ['<takeoffTrim> <v1>', ['0 elevator', '0 stab', '0 stabiliser', '0 stabilizer', '0 takeoff trim', '0 trim']],
    ['[heading] <heading> <runway>', ['0 course', '0 heading!', '0 track']],
    ['<one> <full> <number>', []],
    ['<takeoffTrim>', []],
    ['<unknown> <level>', []],
  ])('are its own words, and with several figures its name and that of its kind: %s', (text, labels) => {
    expect(phrases(frameOf(text), 'label').filter((label) => label.startsWith('0'))).toEqual(labels)
  })

  it('are never the contrary of words of the response', () => {
    const frame = frameOf('hold short {hold} [of] <crossing> <level>')
    expect(phrases(frame, 'label')).toEqual(['1 of!', '1 runway', '2 altitude', '2 level'])
    expect(phrases(frame, 'own')).toEqual(['0 hold short!', '0 holding short', '0 short of'])
    expect(phrases(frame, 'state')).toEqual([
      ...[
        '0 cleared across',
        '0 cleared for takeoff',
        '0 cleared takeoff',
        '0 cleared to cross',
        '0 cross',
        '0 crossing',
      ],
      ...['0 line up', '0 lining up', '0 takeoff'],
    ])
  })

  it('are not its units', () => {
    const frame = frameOf('<level> feet')
    expect([phrases(frame, 'label'), phrases(frame, 'unit')]).toEqual([[], ['0 feet!']])
  })
})

describe('the states of', () => {
  it.each([
    ['gear down', ['0 gear down!'], ['0 gear up', '0 up'], ['0 down']],
    ['armed', ['0 arm', '0 armed!'], ['0 disarm', '0 disarmed', '0 unarmed'], []],
    [
      'closed and locked',
      ['0 close and locked', '0 closed and lock', '0 closed and locked!', '0 closed locked'],
      [
        ...['0 closed and unlock', '0 closed and unlocked', '0 open', '0 open and locked', '0 opened'],
        ...['0 opened and locked', '0 unlock', '0 unlocked'],
      ],
      ['0 closed', '0 locked'],
    ],
    ['on {a} off {b}', ['0 on!', '1 off!'], [], []],
    [
      'gear up {gear} flap down {flap}',
      ['0 gear up!', '1 flap down!'],
      ['0 gear down', '1 flap up'],
      ['0 up', '1 down'],
    ],
    ['the', ['0 the!'], [], []],
  ])('%s', (text, own, states, partial) => {
    const frame = frameOf(text)
    expect(phrases(frame, 'own')).toEqual(expect.arrayContaining(own))
    expect(phrases(frame, 'state')).toEqual(states)
    expect(phrases(frame, 'partial')).toEqual(partial)
  })

  it.each([
    ['on', [['on', 'lit'], ['closed']], ['0 lit', '0 on!'], ['0 closed', '0 off']],
    ['<v1>', [['closed']], [], ['-1 closed']],
    ['(on | now)', [['on', 'lit']], ['0 lit', '0 now!', '0 on!'], ['0 off']],
    ['on <v1>', [['dim']], ['0 on!'], ['0 dim', '0 off']],
    ['<v1> on', [['dim']], ['1 on!'], ['1 dim', '1 off']],
    [
      'gear down {gear} lights on {lights}',
      [['lights on', 'lit'], ['dim']],
      ['0 gear down!', '1 lights on!', '1 lit'],
      ['1 dim', '0 gear up', '0 up', '1 lights off', '1 off'],
    ],
    ['lights on now', [['on', 'lit']], ['0 lights on now!', '0 lit', '0 on'], ['0 lights off now', '0 off']],
  ])('%s with those of its item, %j', (text, itemStates, own, states) => {
    const frame = frameOf(text, itemStates)
    expect(phrases(frame, 'own')).toEqual(expect.arrayContaining(own))
    expect(phrases(frame, 'state')).toEqual(expect.arrayContaining(states))
  })
})

describe('words that change nothing', () => {
  it.each([
    ['on', 'left fuel pumps 2', 'fuel fuels pump pumps'],
    ['doors closed', 'doors not open is', 'door doors is'],
    ['<level> feet', '', 'altitude altitudes feet feets level levels'],
    ['<route>', '', 'and ands route routes taxiway taxiways then thens via vias'],
    ['takeoff <v1>', '', 'airspeed airspeeds speed speeds takeoff takeoffs v1 v1s'],
  ])('in %s after "%s" are its names and nouns, one or more of them, and no states', (text, challenge, words) => {
    expect([...frameOf(text, [], challenge).harmless].sort().join(' ')).toBe(words)
  })
})

it('a frame knows the places of its figures and all words of its phrases', () => {
  const frame = frameOf('gear up {gear} [V one] <v1> checked {now} <level>')
  expect([frame.figureSlots, frame.figureCount]).toEqual([[1, 3], 2])
  for (const word of ['gear', 'up', 'down', 'v', 'one', 'checked', 'altitude']) expect(frame.vocabulary).toContain(word)
  expect(frame.vocabulary).not.toContain('banana')
})

describe('the ways through', () => {
  const slot = (one: Slot) => {
    const name = `${one.name}${one.required ? '' : '?'}`
    const texts = (list: readonly { readonly text: string }[]) => list.map(({ text }) => text).join('|')
    if (one.type === 'word') return `${name}(${texts(one.wordings)})`
    const [label, unit] = [texts(one.labels), texts(one.units)]
    return `<${[name, label && `label ${label}`, unit && `unit ${unit}`].filter((part) => part !== '').join(' ')}>`
  }
  it.each([
    ['V one <v1> {speed} set', ['<speed label v one> set(set)']],
    ['[set] <v1> knots', ['set?(set) <v1 unit knots>']],
    ['<v1> (percent | units)', ['<v1 unit percent|units>']],
    ['<v1> percent set', ['<v1> percent set(percent set)']],
    ['(on | lit) {state} [now]', ['state(on|lit) now?(now)']],
    ['(on [off]) {both}', ['both(on|on off)']],
    ['[[on]]', ['on?(on)']],
    ['[<v1> set]', ['<v1?> set?(set)']],
    ['<v1> | <vr> set', ['<v1>', '<vr> set(set)']],
    ['(a <v1> | b)', ['<v1 label a>', 'b(b)']],
    ['(<v1> | <vr>) (<level> | now)', ['<v1> <level>', '<v1> now(now)', '<vr> <level>', '<vr> now(now)']],
    ['on <v1>', ['on(on) <v1>']],
    ['on <v1> <vr>', ['<v1 label on> <vr>']],
    ['left pump <v1>', ['<v1 label left pump>']],
    ['checked <v1>', ['checked(checked) <v1>']],
    ['armed <v1> <vr>', ['armed(armed) <v1> <vr>']],
  ])('%s', (text, ways) => {
    expect(responseFrom(text).paths.map((path) => path.map(slot).join(' '))).toEqual(ways)
  })
})
