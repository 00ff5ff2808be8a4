import { describe, expect, it } from 'vitest'
import { type More, outcome } from './outcome.ts'

const SPEEDS = 'V one <v1> rotate <vr>'

describe('what was implausible before', () => {
  it.each<[string, string, More, string]>([
    [
      '<trim>',
      'five hundred up',
      { implausibleBefore: { trim: 500 } },
      'negative value: trim wrong "five hundred up" =500',
    ],
    [
      '<trim>',
      'five hundred up',
      { implausibleBefore: { trim: 600 } },
      'sayAgain implausible: trim missing "five hundred up" =500',
    ],
    [
      '<trim> {t}',
      'five hundred up',
      { implausibleBefore: { t: 500 } },
      'negative value: t wrong "five hundred up" =500',
    ],
    [
      '<trim> {t}',
      'five hundred up',
      { implausibleBefore: { trim: 500 } },
      'negative value: t wrong "five hundred up" =500',
    ],
    ['<trim>', 'five', { implausibleBefore: { trim: 5 } }, 'incomplete missing: trim missing "five" =5 lacks decimals'],
  ])('%s, "%s" with %j: %s', (response, heard, more, told) => {
    expect(outcome(response, heard, more)).toBe(told)
  })
})

describe('what an earlier breath said', () => {
  it.each<[string, string, More, string]>([
    [SPEEDS, 'banana', { held: ['v1'] }, 'sayAgain notUnderstood: v1 ok, vr missing'],
    [SPEEDS, 'one three four', { held: ['v1'] }, 'correct: v1 ok, vr ok "one three four" =134'],
    ['on', 'off', { held: ['on'] }, 'negative state: on wrong "off" =off'],
    ['on now {n} set {s}', 'set', { held: ['n'] }, 'correct: n ok, s ok "set" =set'],
    ['<trim>', 'up', { begun: { trim: 'five point two' } }, 'correct: trim ok "five point two up" =5.2'],
    ['<trim>', 'up', { begun: { rudder: 'five point two' } }, 'incomplete missing: trim missing "up" lacks digits'],
    ['<trim>', 'six up', { begun: { trim: 'five point two' } }, 'negative value: trim wrong "six up" =6'],
  ])('%s, "%s" with %j: %s', (response, heard, more, told) => {
    expect(outcome(response, heard, more)).toBe(told)
  })
})

describe('the form that is asked for', () => {
  it.each<[string, string, More, string]>([
    [
      '<v1> set',
      'one twenty eight set',
      { phraseology: 'standard' },
      'sayAgain form (digit by digit): v1 ok "one twenty eight" =128, set ok "set" =set',
    ],
    [
      '<v1> armed',
      'one two eight arm',
      { phraseology: 'verbatim' },
      'sayAgain form (in the words of the list): v1 ok "one two eight" =128, armed ok "arm" =arm',
    ],
    [
      SPEEDS,
      'one two eight one three four',
      { phraseology: 'standard' },
      'correct: v1 ok "one two eight" =128, vr ok "one three four" =134',
    ],
    [
      SPEEDS,
      'one twenty eight one thirty four',
      { phraseology: 'standard' },
      'sayAgain form (digit by digit): v1 ok "one twenty eight" =128, vr ok "one thirty four" =134',
    ],
    [
      SPEEDS,
      'rotate one three four V one one two eight',
      { phraseology: 'standard' },
      'sayAgain form (in the words of the list): v1 ok "one two eight" =128, vr ok "one three four" =134',
    ],
    [
      SPEEDS,
      'one two eight one three four',
      { phraseology: 'verbatim' },
      'sayAgain form (in the words of the list): v1 ok "one two eight" =128, vr ok "one three four" =134',
    ],
    [
      SPEEDS,
      'V one one two eight rotate one three four',
      { phraseology: 'verbatim' },
      'correct: v1 ok "one two eight" =128, vr ok "one three four" =134',
    ],
    [
      SPEEDS,
      'V one one two eight one three four',
      { phraseology: 'verbatim' },
      'sayAgain form (in the words of the list): v1 ok "one two eight" =128, vr ok "one three four" =134',
    ],
    [
      SPEEDS,
      'V one one two eight v r one three four',
      { phraseology: 'verbatim' },
      'correct: v1 ok "one two eight" =128, vr ok "one three four" =134',
    ],
    ['armed', 'arm', { phraseology: 'verbatim' }, 'sayAgain form (in the words of the list): armed ok "arm" =arm'],
    [
      'armed',
      'harmed',
      { phraseology: 'verbatim' },
      'sayAgain form (in the words of the list): armed ok "harmed" =harmed',
    ],
    ['armed', 'armed', { phraseology: 'verbatim' }, 'correct: armed ok "armed" =armed'],
    ['armed', 'arm', { phraseology: 'standard' }, 'correct: armed ok "arm" =arm'],
    [
      '<v1> set',
      'set one two eight',
      { phraseology: 'standard' },
      'sayAgain form (in the words of the list): v1 ok "one two eight" =128, set ok "set" =set',
    ],
    [
      '<v1> set',
      'set one two eight',
      { phraseology: 'plain' },
      'correct: v1 ok "one two eight" =128, set ok "set" =set',
    ],
    [
      'armed',
      'armed and arm',
      { phraseology: 'verbatim' },
      'sayAgain form (in the words of the list): armed ok "armed, arm" =arm',
    ],
    [
      '(closed | shut) <v1>',
      'shut one two eight',
      { phraseology: 'verbatim' },
      'correct: closed ok "shut" =shut, v1 ok "one two eight" =128',
    ],
    ['<level> [feet]', 'five thousand', { phraseology: 'verbatim' }, 'correct: level ok "five thousand" =5000'],
  ])('%s, "%s" with %j: %s', (response, heard, more, told) => {
    expect(outcome(response, heard, more)).toBe(told)
  })
})

describe('words of a command in an answer', () => {
  it.each([
    ['<v1> set', 'one two eight stand by', 'command standBy: '],
    ['<v1> set', 'one two eight standby', 'command standBy: '],
    ['<v1> set', 'one two nine stand by', 'command standBy: '],
    ['<v1> set', 'one two eight set stand by', 'correct: v1 ok "one two eight" =128, set ok "set" =set'],
    ['<v1> set', 'one two nine set stand by', 'negative value: v1 wrong "one two nine" =129, set ok "set" =set'],
    ['<trim>', 'five hundred up stand by', 'sayAgain implausible: trim missing "five hundred up" =500'],
    ['<trim>', 'five point two stand by', 'command standBy: '],
    ['<v1> set', 'one two eight say again', 'command sayAgain: '],
    ['<v1> set', 'one two eight continue', 'incomplete missing: v1 ok "one two eight" =128, set missing'],
    ['<v1>', 'say again', 'command sayAgain: '],
  ])('%s, "%s": %s', (response, heard, told) => {
    expect(outcome(response, heard)).toBe(told)
  })
})

describe('parts that are words', () => {
  it.each([
    ['on {a} off {b} on {c}', 'on off on', 'correct: a ok "on" =on, b ok "off" =off, c ok "on" =on'],
    ['on {a} (on | lit) {b}', 'on lit on', 'correct: a ok "on, on" =on, b ok "lit" =lit'],
    ['on', 'off', 'negative state: on wrong "off" =off'],
    ['on now {n} set {s}', 'on now', 'incomplete missing: n ok "on now" =on now, s missing'],
    ['on', 'on off', 'sayAgain twoValues: on missing "on, off"'],
    ['on', 'on on', 'correct: on ok "on, on" =on'],
    ['on', 'not on', 'negative state: on wrong "not on" =not on'],
    ['on', 'not off', 'sayAgain ambiguous: on missing'],
    ['on', 'not', 'sayAgain ambiguous: on missing'],
    ['on', 'not not on', 'sayAgain ambiguous: on missing "not on" =not on'],
    ['on', 'on not', 'sayAgain ambiguous: on missing "on" =on'],
    ['gear down', 'down', 'sayAgain notUnderstood: gear down missing'],
    ['gear down', 'not down', 'negative state: gear down wrong "not down" =not down'],
    ['gear down', 'gear up', 'negative state: gear down wrong "gear up" =gear up'],
    ['gear down', 'gear not down', 'negative state: gear down wrong "not down" =not down'],
    ['[on]', '', 'sayAgain notUnderstood: '],
    ['[on]', 'uh', 'sayAgain notUnderstood: '],
    ['on {a} on {b}', 'on on', 'correct: a ok "on" =on, b ok "on" =on'],
    ['on {a} on {b}', 'on', 'incomplete missing: a ok "on" =on, b missing'],
    ['on {a} on {b}', 'on on on', 'correct: a ok "on, on" =on, b ok "on" =on'],
    ['set', 'dozen set', 'sayAgain notUnderstood: set missing "set" =set'],
  ])('%s, "%s": %s', (response, heard, told) => {
    expect(outcome(response, heard)).toBe(told)
  })
})

describe('parts that are corrected', () => {
  it.each([
    ['<v1> set', 'set correction not set', 'negative state: v1 missing, set wrong "not set" =not set'],
    ['<v1> on', 'on correction off', 'negative state: v1 missing, on wrong "off" =off'],
    [
      '<v1> on',
      'one two eight correction on',
      'sayAgain notUnderstood: v1 missing "one two eight" =128, on missing "on" =on',
    ],
    [
      '<v1> [on]',
      'one two eight correction off',
      'sayAgain notUnderstood: v1 missing "one two eight" =128, on missing "off" =off',
    ],
    [
      '<v1> [set]',
      'one two eight correction set',
      'sayAgain notUnderstood: v1 missing "one two eight" =128, set missing "set" =set',
    ],
    [
      'brake set {brake} tug away {tug}',
      'brake set correction not tug away',
      'sayAgain notUnderstood: brake missing "brake set" =brake set, tug missing "not tug away" =not tug away',
    ],
    ['<v1> set', 'correction one two eight set', 'sayAgain notUnderstood: v1 missing, set missing "set" =set'],
    ['<v1> set', 'one two nine correction one two eight set', 'correct: v1 ok "one two eight" =128, set ok "set" =set'],
    ['<v1> set', 'one two nine set correction one two eight', 'correct: v1 ok "one two eight" =128, set ok "set" =set'],
    [
      '<v1> [set]',
      'one two nine correction set one two eight',
      'correct: v1 ok "one two eight" =128, set ok "set" =set',
    ],
    ['<v1> set', 'correction set', 'sayAgain notUnderstood: v1 missing, set missing "set" =set'],
    [
      '<v1> set',
      'one two eight correction set',
      'sayAgain notUnderstood: v1 missing "one two eight" =128, set missing "set" =set',
    ],
    ['<v1> set', 'set correction', 'sayAgain notUnderstood: v1 missing, set missing "set" =set'],
    ['<v1> set', 'set correction one two eight', 'sayAgain notUnderstood: v1 missing, set missing "set" =set'],
    ['on', 'off correction on', 'correct: on ok "on" =on'],
    ['on', 'on correction off', 'negative state: on wrong "off" =off'],
    [
      SPEEDS,
      'one two eight one three four correction rotate one three five',
      'negative value: v1 ok "one two eight" =128, vr wrong "one three five" =135',
    ],
    [
      SPEEDS,
      'one two eight one three four correction one three five',
      'negative value: v1 ok "one two eight" =128, vr wrong "one three five" =135',
    ],
    [
      SPEEDS,
      'one two eight one three four correction one three five one three six',
      'sayAgain twoValues: v1 missing "one two eight" =128, vr missing "one three four" =134',
    ],
  ])('%s, "%s": %s', (response, heard, told) => {
    expect(outcome(response, heard)).toBe(told)
  })
})

describe('several parts', () => {
  it.each([
    ['<v1> set', 'roger', 'sayAgain notUnderstood: v1 missing, set missing'],
    [SPEEDS, 'rotate', 'incomplete missing: v1 missing, vr missing lacks digits'],
    [SPEEDS, 'V one one two eight', 'incomplete missing: v1 ok "one two eight" =128, vr missing'],
    [SPEEDS, 'V one one two eight rotate', 'incomplete missing: v1 ok "one two eight" =128, vr missing lacks digits'],
    [SPEEDS, 'banana', 'sayAgain notUnderstood: v1 missing, vr missing'],
    [
      SPEEDS,
      'V one one two eight rotate banana',
      'incomplete missing: v1 ok "one two eight" =128, vr missing lacks digits',
    ],
    [SPEEDS, 'V one one two nine banana', 'negative value: v1 wrong "one two nine" =129, vr missing'],
    [
      SPEEDS,
      'one two eight one three four one three five',
      'sayAgain implausible: v1 missing "one two eight one three four one three five" =128134135, vr missing',
    ],
    [
      SPEEDS,
      'one two eight and one three four and one three five',
      'sayAgain twoValues: v1 missing "one two eight" =128, vr missing "one three four" =134',
    ],
    [
      SPEEDS,
      'rotate one three four V one one two eight',
      'correct: v1 ok "one two eight" =128, vr ok "one three four" =134',
    ],
    [
      '<v1> set',
      'one two eight five dozen set',
      'sayAgain implausible: v1 missing "one two eight five" =1285, set missing "set" =set',
    ],
    ['<v1>', 'negative one two eight', 'sayAgain ambiguous: v1 missing "one two eight" =128'],
    ['<v1>', 'one two eight say again', 'correct: v1 ok "one two eight" =128'],
    ['<v1> set', 'one two eight continue', 'incomplete missing: v1 ok "one two eight" =128, set missing'],
    ['<v1> <vr>', 'one two eight one three four', 'correct: v1 ok "one two eight" =128, vr ok "one three four" =134'],
    ['<v1> <vr>', 'one two eight', 'sayAgain twoValues: v1 missing "one two eight" =128, vr missing'],
    [
      '<trim> <rudder>',
      'five point two up one point five left',
      'negative direction: trim ok "five point two up" =5.2, rudder wrong "one point five left" =-1.5',
    ],
  ])('%s, "%s": %s', (response, heard, told) => {
    expect(outcome(response, heard)).toBe(told)
  })
})

describe('a state of the item that its response does not have', () => {
  it.each([
    ['on', 'closed', [['on'], ['closed']], 'negative state: on wrong "closed" =closed'],
    [
      '<v1>',
      'one two eight closed',
      [['closed']],
      'negative state: v1 ok "one two eight" =128, closed wrong "closed" =closed',
    ],
  ])('%s, "%s": %s', (response, heard, states, told) => {
    expect(outcome(response, heard, { states })).toBe(told)
  })
})
