/**
 * The rules of judging, one row each, written from the rules alone and apart from the generators:
 * check data, nothing was tuned on it.
 */

import { describe, expect, it } from 'vitest'
import type { Figure, Phraseology } from '../../../src/kernel/kinds/kind.ts'
import type { Because, Verdict } from '../../../src/kernel/response/model.ts'
import { judgeText, type TextInput } from '../../corpus/judgeText.ts'

type Row = [heard: string, verdict: Verdict, because?: Because]

const figures = {
  trim: { kind: 'trim', decimals: 1, value: 5.2 },
  down: { kind: 'trim', decimals: 1, value: -1.5 },
  neutral: { kind: 'trim', decimals: 1, value: 0 },
  rudder: { kind: 'trim', decimals: 1, axis: 'yaw', value: -2 },
  mac: { kind: 'decimal', decimals: 1, unit: 'percent', value: 26.4 },
  macWhole: { kind: 'decimal', decimals: 1, unit: 'percent', value: 26 },
  flap: { kind: 'integer', value: 14 },
  v1: { kind: 'speed', value: 128 },
  vr: { kind: 'speed', value: 131 },
  v112: { kind: 'speed', value: 112 },
  v2: { kind: 'speed', value: 138 },
  weight: { kind: 'weight', unit: 'kg', value: 8400 },
  fuel: { kind: 'weight', unit: 'kg', say: 'thousands', value: 8400 },
  squawk: { kind: 'digits', length: 4, value: '4271' },
  squawkRound: { kind: 'digits', length: 4, value: '4000' },
  qnh: { kind: 'altimeter', unit: 'hPa', value: 1013 },
  inches: { kind: 'altimeter', unit: 'inHg', value: 29.92 },
  heading: { kind: 'heading', value: 89 },
  runway: { kind: 'runway', value: '27L' },
  runway9: { kind: 'runway', value: '09' },
  altitude: { kind: 'altitude', unit: 'ft', value: 5000 },
  altitude12: { kind: 'altitude', unit: 'ft', value: 12000 },
  level: { kind: 'flightLevel', value: 350 },
  level100: { kind: 'flightLevel', value: 100 },
  frequency: { kind: 'frequency', value: 118.1 },
  time: { kind: 'time', value: '1435' },
  stand: { kind: 'identifier', value: 'A3' },
  lever: { kind: 'choice', value: '5', options: { '1': ['one'], '5': ['five'], up: ['up', 'zero'] } },
  oat: { kind: 'temperature', unit: 'C', value: -5 },
} satisfies Record<string, Figure>

interface Case {
  readonly about: string
  readonly response: string
  readonly more?: Partial<TextInput>
  readonly phraseology?: Phraseology
  readonly rows: readonly Row[]
}

const cases: readonly Case[] = [
  {
    about: 'takeoff trim',
    response: '<trim> [set]',
    more: { challenge: 'takeoff trim' },
    rows: [
      ['five point two up', 'correct'],
      ['five point two up set', 'correct'],
      ['five decimal two nose up', 'correct'],
      ['fife point two up', 'correct'],
      ['five point two units nose up', 'correct'],
      ['up five point two', 'correct'],
      ['5.2 up', 'correct'],
      ['takeoff trim five point two up', 'correct'],
      ['uh five point two up', 'correct'],
      ['five point two up five point two up', 'correct'],
      ['five point six up correction five point two up', 'correct'],
      ['five point two', 'incomplete'],
      ['five up', 'incomplete'],
      ['five point two down', 'negative', 'direction'],
      ['five point six up', 'negative', 'value'],
      ['nine point two up', 'negative', 'value'],
      ['two point five up', 'negative', 'value'],
      ['minus five point two', 'negative', 'direction'],
      ['five point two up five point six up', 'sayAgain', 'twoValues'],
      ['five point two up correction five point six up', 'negative', 'value'],
      ['not five point two up', 'negative'],
      ['', 'sayAgain'],
      ['the weather is nice today', 'sayAgain', 'notUnderstood'],
      ['set', 'incomplete'],
      ['negative', 'negative', 'refused'],
      ['stand by', 'command'],
      ['say again', 'command'],
      ['disregard', 'command'],
    ],
  },
  {
    about: 'trim down and neutral',
    response: '<down>',
    rows: [
      ['one point five down', 'correct'],
      ['minus one point five', 'correct'],
      ['one point five nose down', 'correct'],
      ['one point five up', 'negative', 'direction'],
      ['one point five', 'incomplete'],
    ],
  },
  {
    about: 'neutral trim',
    response: '<neutral>',
    rows: [
      ['zero', 'correct'],
      ['neutral', 'correct'],
      ['zero point zero', 'correct'],
      ['one point five up', 'negative', 'value'],
    ],
  },
  {
    about: 'rudder trim to the left',
    response: '<rudder>',
    rows: [
      ['two point zero left', 'correct'],
      ['two point zero right', 'negative', 'direction'],
      ['two point zero', 'incomplete'],
    ],
  },
  {
    about: 'percent of MAC',
    response: '<mac>',
    rows: [
      ['two six point four', 'correct'],
      ['twenty-six decimal four', 'correct'],
      ['twenty six point four percent', 'correct'],
      ['26.4', 'correct'],
      ['twenty six', 'incomplete'],
      ['two six point five', 'negative', 'value'],
      ['two four point six', 'negative', 'value'],
      ['sixty two point four', 'negative', 'value'],
    ],
  },
  {
    about: 'a decimal whose fraction is zero',
    response: '<macWhole>',
    rows: [
      ['twenty six', 'correct'],
      ['two six point zero', 'correct'],
      ['twenty seven', 'negative', 'value'],
    ],
  },
  {
    about: 'flap',
    response: 'flap <flap>',
    rows: [
      ['flap fourteen', 'correct'],
      ['flap one four', 'correct'],
      ['flap forty', 'negative', 'value'],
      ['flap four', 'negative', 'value'],
      ['flap', 'incomplete'],
    ],
  },
  {
    about: 'three speeds with their labels',
    response: 'V one <v1> rotate <vr> V two <v2>',
    rows: [
      ['V one one two eight rotate one three one V two one three eight', 'correct'],
      ['v1 128 rotate 131 v2 138', 'correct'],
      ['V one one twenty-eight rotate one thirty-one V two one thirty-eight', 'correct'],
      ['V one one hundred twenty-eight rotate one hundred thirty-one V two one hundred thirty-eight', 'correct'],
      ['rotate one three one V one one two eight V two one three eight', 'correct'],
      ['V one one two eight rotate one three one', 'incomplete'],
      ['V one one three one rotate one two eight V two one three eight', 'negative', 'value'],
      ['V one one two eight rotate one three one V two one three nine', 'negative', 'value'],
      ['V one one two niner rotate one three one V two one three eight', 'negative', 'value'],
    ],
  },
  {
    about: 'one speed',
    response: '<v1>',
    rows: [
      ['one two eight', 'correct'],
      ['one twenty eight', 'correct'],
      ['one hundred, twenty-eight', 'correct'],
      ['one hundred and twenty eight knots', 'correct'],
      ['one two eight knots', 'correct'],
      ['one two too', 'negative', 'value'],
      ['one two nine', 'negative', 'value'],
      ['one eight two', 'negative', 'value'],
    ],
  },
  {
    about: 'a weight',
    response: '<weight>',
    rows: [
      ['eight thousand four hundred', 'correct'],
      ['eight four zero zero', 'correct'],
      ['eight thousand four hundred kilos', 'correct'],
      ['8400', 'correct'],
      ['eight thousand four hundred pounds', 'negative', 'unit'],
      ['eight thousand five hundred', 'negative', 'value'],
      ['eighteen thousand four hundred', 'negative', 'value'],
    ],
  },
  {
    about: 'a weight said in thousands',
    response: '<fuel>',
    rows: [
      ['eight point four', 'correct'],
      ['eight thousand four hundred', 'correct'],
      ['eight point five', 'negative', 'value'],
    ],
  },
  {
    about: 'a transponder code',
    response: '[squawk] <squawk>',
    rows: [
      ['four two seven one', 'correct'],
      ['fower two seven one', 'correct'],
      ['squawk four two seven one', 'correct'],
      ['forty-two seventy-one', 'correct'],
      ['4271', 'correct'],
      ['four to seven one', 'correct'],
      ['four two seven', 'sayAgain'],
      ['two seven one', 'sayAgain'],
      ['four two one seven', 'negative', 'value'],
      ['four two seven nine', 'negative', 'value'],
    ],
  },
  {
    about: 'a round code',
    response: '<squawkRound>',
    rows: [
      ['four thousand', 'correct'],
      ['four zero zero zero', 'correct'],
      ['four triple zero', 'correct'],
      ['five thousand', 'negative', 'value'],
    ],
  },
  {
    about: 'hectopascals',
    response: '<qnh> [set]',
    rows: [
      ['one zero one three', 'correct'],
      ['ten thirteen', 'correct'],
      ['one oh one three', 'correct'],
      ['one zero one tree set', 'correct'],
      ['ten thirty', 'negative', 'value'],
      ['one zero three one', 'negative', 'value'],
      ['two niner niner two', 'negative', 'unit'],
      ['one zero one', 'sayAgain'],
    ],
  },
  {
    about: 'inches',
    response: '<inches>',
    rows: [
      ['two niner niner two', 'correct'],
      ['twenty-nine ninety-two', 'correct'],
      ['two niner decimal niner two', 'correct'],
      ['29.92', 'correct'],
      ['one zero one three', 'negative', 'unit'],
      ['two niner niner five', 'negative', 'value'],
    ],
  },
  {
    about: 'a heading',
    response: '[heading] <heading>',
    rows: [
      ['zero eight niner', 'correct'],
      ['heading zero eight nine', 'correct'],
      ['eight niner', 'incomplete'],
      ['zero niner eight', 'negative', 'value'],
      ['niner eight', 'negative', 'value'],
    ],
  },
  {
    about: 'a runway',
    response: '[runway] <runway>',
    rows: [
      ['two seven left', 'correct'],
      ['runway two seven left', 'correct'],
      ['runway twenty-seven left', 'correct'],
      ['two seven right', 'negative', 'direction'],
      ['two seven', 'incomplete'],
      ['two five left', 'negative', 'value'],
    ],
  },
  {
    about: 'a runway with a leading zero',
    response: '<runway9>',
    rows: [
      ['zero nine', 'correct'],
      ['runway nine', 'correct'],
      ['niner', 'correct'],
      ['one niner', 'negative', 'value'],
    ],
  },
  {
    about: 'an altitude',
    response: '<altitude>',
    rows: [
      ['five thousand', 'correct'],
      ['five thousand feet', 'correct'],
      ['fife tousand', 'correct'],
      ['fifteen thousand', 'negative', 'value'],
      ['four thousand', 'negative', 'value'],
    ],
  },
  {
    about: 'an altitude above ten thousand',
    response: '<altitude12>',
    rows: [
      ['one two thousand', 'correct'],
      ['twelve thousand', 'correct'],
      ['two one thousand', 'negative', 'value'],
    ],
  },
  {
    about: 'a flight level',
    response: '<level>',
    rows: [
      ['flight level three five zero', 'correct'],
      ['three five zero', 'correct'],
      ['flight level three three zero', 'negative', 'value'],
      ['FL350', 'correct'],
    ],
  },
  {
    about: 'a whole hundred',
    response: '<level100>',
    rows: [
      ['flight level one hundred', 'correct'],
      ['flight level one zero zero', 'correct'],
      ['flight level one one zero', 'negative', 'value'],
    ],
  },
  {
    about: 'a frequency',
    response: '<frequency>',
    rows: [
      ['one one eight decimal one', 'correct'],
      ['one one eight point one', 'correct'],
      ['one one eight decimal one zero', 'correct'],
      ['one eighteen point one', 'correct'],
      ['one one eight decimal niner', 'negative', 'value'],
      ['118.1', 'correct'],
    ],
  },
  {
    about: 'a time',
    response: '<time>',
    rows: [
      ['one four three five', 'correct'],
      ['fourteen thirty-five', 'correct'],
      ['one four five three', 'negative', 'value'],
      ['three five', 'sayAgain'],
    ],
  },
  {
    about: 'a stand',
    response: '<stand>',
    rows: [
      ['alfa three', 'correct'],
      ['alpha tree', 'correct'],
      ['bravo three', 'negative', 'value'],
      ['alfa four', 'negative', 'value'],
    ],
  },
  {
    about: 'a lever with named positions',
    response: '<lever>',
    rows: [
      ['five', 'correct'],
      ['fife', 'correct'],
      ['one', 'negative'],
      ['up', 'negative'],
      ['zero', 'negative'],
    ],
  },
  {
    about: 'a temperature below zero',
    response: '<oat>',
    rows: [
      ['minus five', 'correct'],
      ['minus five degrees', 'correct'],
      ['five', 'negative'],
      ['minus four', 'negative', 'value'],
    ],
  },
  {
    about: 'a word with states',
    response: '(closed and locked) {doors}',
    more: { states: [['closed and locked', 'closed'], ['open'], ['closed and unlocked', 'unlocked']] },
    rows: [
      ['closed and locked', 'correct'],
      ['closed, locked', 'correct'],
      ['closed and unlocked', 'negative', 'state'],
      ['open', 'negative', 'state'],
      ['not closed', 'negative'],
      ['one open', 'negative'],
      ['not locked', 'negative'],
    ],
  },
  {
    about: 'a switch',
    response: 'on',
    more: { states: [['on'], ['off'], ['auto', 'automatic']] },
    rows: [
      ['on', 'correct'],
      ['off', 'negative', 'state'],
      ['automatic', 'negative', 'state'],
      ['not on', 'negative'],
      ['on off', 'sayAgain', 'twoValues'],
      ['off correction on', 'correct'],
    ],
  },
  {
    about: 'an answer that says the challenge again',
    response: 'beacon on',
    more: { challenge: 'beacon' },
    rows: [
      ['beacon on', 'correct'],
      ['beacon, beacon on', 'correct'],
      ['beacon off', 'negative', 'state'],
      ['beacon not on', 'negative'],
    ],
  },
  {
    about: 'an answer that shares a word with the challenge',
    response: 'brake set',
    more: { challenge: 'parking brake' },
    rows: [
      ['brake set', 'correct'],
      ['parking brake set', 'correct'],
      ['parking brake, brake set', 'correct'],
      ['parking brake released', 'negative', 'state'],
      ['parking brake not set', 'negative'],
    ],
  },
  {
    about: 'a challenge with a number in it',
    response: '<v112>',
    more: { challenge: 'V one' },
    rows: [
      ['V one one one two', 'correct'],
      ['one one two', 'correct'],
    ],
  },
  {
    about: 'an opposite that no states name',
    response: 'released',
    rows: [
      ['released', 'correct'],
      ['set', 'negative', 'state'],
      ['not released', 'negative'],
    ],
  },
  {
    about: 'two tagged parts',
    response: 'full left {left} full right {right}',
    rows: [
      ['full left full right', 'correct'],
      ['full left', 'incomplete'],
      ['full right full left', 'correct'],
    ],
  },
  {
    about: 'an answer that holds a word of command',
    response: 'pass | continue',
    rows: [
      ['continue', 'correct'],
      ['pass', 'correct'],
    ],
  },
  {
    about: 'standard phraseology',
    response: '<squawk>',
    phraseology: 'standard',
    rows: [
      ['four two seven one', 'correct'],
      ['forty-two seventy-one', 'sayAgain', 'form'],
      ['forty-two seventy-nine', 'negative', 'value'],
    ],
  },
  {
    about: 'oh in standard phraseology',
    response: '<qnh>',
    phraseology: 'standard',
    rows: [
      ['one zero one three', 'correct'],
      ['one oh one three', 'sayAgain', 'form'],
      ['ten thirteen', 'sayAgain', 'form'],
    ],
  },
]

describe.each(cases)('$about', ({ response, rows, more, phraseology }) => {
  it.each(rows)('"%s" is %s', (heard, verdict, because) => {
    const judgement = judgeText({ response, figures, heard, ...more, ...(phraseology && { phraseology }) })
    expect(judgement.verdict).toBe(verdict)
    if (because) expect(judgement.because).toBe(because)
    if (verdict === 'negative' && judgement.because !== 'refused')
      expect(judgement.parts.some((part) => part.state === 'wrong')).toBe(true)
    if (verdict === 'incomplete') {
      expect(judgement.parts.some((part) => part.state === 'missing')).toBe(true)
      expect(judgement.parts.some((part) => part.state === 'wrong')).toBe(false)
    }
  })
})

describe('alternatives of the recogniser', () => {
  const base = { response: '<trim> [set]', figures, heard: 'five point two up' }
  it.each<[string, Partial<TextInput>, Verdict]>([
    ['an equally likely other value', { alternatives: [{ text: 'five point six up' }] }, 'sayAgain'],
    [
      'another value within a tenth',
      { score: 0.8, alternatives: [{ text: 'nine point two up', score: 0.75 }] },
      'sayAgain',
    ],
    [
      'a clearly less likely value',
      { score: 0.9, alternatives: [{ text: 'nine point two up', score: 0.5 }] },
      'correct',
    ],
    ['the same value in other words', { alternatives: [{ text: 'five decimal two up set' }] }, 'correct'],
    ['other speech', { alternatives: [{ text: 'hive coin to cup' }] }, 'correct'],
    ['an equally likely command', { alternatives: [{ text: 'stand by' }] }, 'sayAgain'],
  ])('%s', (_, more, verdict) => {
    expect(judgeText({ ...base, ...more }).verdict).toBe(verdict)
  })

  it('never lift a wrong first text to right', () => {
    const judgement = judgeText({
      ...base,
      heard: 'five point six up',
      score: 0.9,
      alternatives: [{ text: 'five point two up', score: 0.1 }],
    })
    expect(judgement.verdict).toBe('negative')
  })
})

describe('parts held from an earlier breath', () => {
  it('need not be said again', () => {
    const base = { response: 'V one <v1> rotate <vr>', figures }
    expect(judgeText({ ...base, heard: 'rotate one three one', held: ['v1'] }).verdict).toBe('correct')
    expect(judgeText({ ...base, heard: 'rotate one three two', held: ['v1'] }).verdict).toBe('negative')
  })
})

describe('scale', () => {
  const code: Figure = { kind: 'integer', value: 14, min: 0, max: 40 }
  it('makes a well-read value outside it implausible, and the same one again negative', () => {
    const base = { response: '<code>', figures: { code }, heard: 'ninety' }
    expect(judgeText(base)).toMatchObject({ verdict: 'sayAgain', because: 'implausible' })
    expect(judgeText({ ...base, implausibleBefore: { code: 90 } }).verdict).toBe('negative')
  })
  it('widens with a tolerance, and says what was read', () => {
    const fuel: Figure = { kind: 'decimal', decimals: 1, value: 5.2, accept: { tolerance: 0.1 } }
    expect(judgeText({ response: '<fuel>', figures: { fuel }, heard: 'five point three' })).toMatchObject({
      verdict: 'correct',
      parts: [{ read: 5.3 }],
    })
    expect(judgeText({ response: '<fuel>', figures: { fuel }, heard: 'five point four' }).verdict).toBe('negative')
  })
})

describe('what no pilot says', () => {
  it.each([
    '\u0000\u0007',
    'пять целых две',
    '٥٫٢ up',
    'NaN',
    '-0',
    `${'9'.repeat(400)}`,
    'five '.repeat(2_000),
    '5.2'.repeat(3_000),
    'Infinity up',
    '((<trim>',
  ])('%j gets a verdict that is not correct', (heard) => {
    expect(judgeText({ response: '<trim> [set]', figures, heard }).verdict).not.toBe('correct')
  })
})
