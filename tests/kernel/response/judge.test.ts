import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Figure } from '../../../src/kernel/kinds/kind.ts'
import { transcriptOf } from '../../../src/kernel/numbers/tokens.ts'
import { judge } from '../../../src/kernel/response/judge.ts'
import { NOTHING, responseFrom } from '../../../src/kernel/response/response.ts'
import { cases } from '../../cases.ts'
import { judgeText, type TextInput } from '../../corpus/judgeText.ts'

const TRIM: Figure = { kind: 'trim', decimals: 1, axis: 'pitch', value: 5.2 }
const ITEM = { challenge: 'takeoff trim', response: '<trim> [set]', figures: { trim: TRIM } }
const SPEEDS: TextInput = {
  response: 'V one <v1> rotate <vr> V two <v2>',
  figures: { v1: { kind: 'speed', value: 128 }, vr: { kind: 'speed', value: 131 }, v2: { kind: 'speed', value: 138 } },
  heard: '',
}

describe('two values with "to" between them are not the first one said twice', () => {
  it.each<readonly [Figure, string]>([
    [{ kind: 'weight', unit: 'kg', value: 25_300 }, 'twenty-five thousand three hundred kilograms to 5300 kilograms'],
    [{ kind: 'weight', unit: 'lb', say: 'thousands', value: 28_100 }, '28,100 lbs to 8100 pounds'],
    [{ kind: 'trim', decimals: 1, axis: 'pitch', value: -2.5 }, 'down 2.5 degrees to decimal five, down'],
  ])('%o: "%s"', (figure, heard) => {
    expect(judgeText({ response: '<x>', figures: { x: figure }, heard }).verdict).toBe('sayAgain')
  })
})

describe('a judgement names its parts', () => {
  it('the figure with what was heard, read and expected', () => {
    expect(judgeText({ ...ITEM, heard: 'takeoff trim five point two up' })).toEqual({
      verdict: 'correct',
      parts: [{ name: 'trim', kind: 'figure', heard: 'five point two up', read: 5.2, expected: 5.2, state: 'ok' }],
    })
  })

  it('an optional word only where it was said', () => {
    const { parts } = judgeText({ ...ITEM, heard: 'five point six up set' })
    expect(parts.map(({ name, state }) => [name, state])).toEqual([
      ['trim', 'wrong'],
      ['set', 'ok'],
    ])
  })

  it('the one wrong speed of three', () => {
    const { verdict, parts } = judgeText({ ...SPEEDS, heard: 'V1 128 rotate 113 V2 138' })
    expect(verdict).toBe('negative')
    expect(parts.map(({ name, state, read }) => [name, state, read])).toEqual([
      ['v1', 'ok', 128],
      ['vr', 'wrong', 113],
      ['v2', 'ok', 138],
    ])
  })

  it('the missing one by its tag', () => {
    const { verdict, parts } = judgeText({
      response: 'full left {left} full right {right}',
      figures: {},
      heard: 'full left',
    })
    expect(verdict).toBe('incomplete')
    expect(parts.map(({ name, state }) => [name, state])).toEqual([
      ['left', 'ok'],
      ['right', 'missing'],
    ])
  })

  it('a part that was right in an earlier breath stays so', () => {
    const { verdict, parts } = judgeText({ ...SPEEDS, held: ['v1', 'vr'], heard: 'one three eight' })
    expect(verdict).toBe('correct')
    expect(parts.map(({ state }) => state)).toEqual(['ok', 'ok', 'ok'])
  })

  it('a direction by itself completes the number of the breath before', () => {
    const begun = { trim: 'five point two' }
    expect(judgeText({ ...ITEM, begun, heard: 'up' })).toMatchObject({ verdict: 'correct', parts: [{ read: 5.2 }] })
    expect(judgeText({ ...ITEM, begun, heard: 'down' }).verdict).not.toBe('correct')
    expect(judgeText({ ...ITEM, begun, heard: 'five point six up' }).verdict).toBe('negative')
    expect(judgeText({ ...ITEM, heard: 'up' })).toMatchObject({ verdict: 'incomplete', parts: [{ lacks: 'digits' }] })
  })

  it.each([
    ['edition one, seventy two persons on board', [1, 72]],
    ['edition one, seven two on board', [1, 72]],
    ['edition one, one hundred, seventy two on board', [1, 172]],
  ])('a comma keeps two values apart: "%s"', (heard, read) => {
    const number = (value: number) => ({ kind: 'integer', value }) as const
    const SHEET = { challenge: 'load sheet', response: 'edition <edition> <aboard> on board' }
    const { parts } = judgeText({ ...SHEET, figures: { edition: number(1), aboard: number(72) }, heard })
    expect(parts.flatMap((part) => (part.kind === 'figure' ? [part.read] : []))).toEqual(read)
  })

  it('nor does the beginning of that number make it another one: the direction completes it', () => {
    const begun = { trim: 'five point two' }
    const { verdict, parts } = judgeText({ ...ITEM, begun, heard: 'five up set' })
    expect([verdict, parts[0]?.read]).toEqual(['correct', 5.2])
    expect(judgeText({ ...ITEM, begun, heard: 'five down set' }).verdict).toBe('negative')
    expect(judgeText({ ...ITEM, begun, heard: 'six up set' }).verdict).not.toBe('correct')
    expect(judgeText({ ...ITEM, heard: 'five up set' }).verdict).not.toBe('correct')
  })

  it('a negation with the word it stands before', () => {
    const { because, parts } = judgeText({ response: 'armed', figures: {}, heard: 'not armed' })
    expect([because, parts[0]?.heard]).toEqual(['state', 'not armed'])
  })

  it('the form that is asked for', () => {
    const judged = judgeText({
      response: '<v>',
      figures: { v: { kind: 'speed', value: 128 } },
      heard: 'one twenty-eight',
      phraseology: 'standard',
    })
    expect(judged).toMatchObject({ verdict: 'sayAgain', because: 'form', form: 'digit by digit' })
  })

  it('nothing of an answer in doubt is called right', () => {
    const { verdict, parts } = judgeText({ ...SPEEDS, heard: 'V1 128 V1 129 rotate 131 V2 138' })
    expect(verdict).toBe('sayAgain')
    expect(parts.some(({ state }) => state === 'ok')).toBe(false)
  })
})

const GARBAGE = fc.oneof(
  fc.string({ maxLength: 80 }),
  fc.string({ unit: 'binary', maxLength: 80 }),
  fc
    .array(
      fc.constantFrom(
        ...'one two five point up down set not correction disregard negative 5.2 29.92 V1 rotate to for double hundred thousand and minus . , - ٥ ５ NaN Infinity 1e9 -0'.split(
          ' ',
        ),
      ),
      { maxLength: 30 },
    )
    .map((words) => words.join(' ')),
)

const FIGURES: readonly Figure[] = [
  TRIM,
  { kind: 'decimal', decimals: 1, value: 26.4 },
  { kind: 'digits', length: 4, value: '4271' },
  { kind: 'altimeter', unit: 'inHg', value: 29.92 },
  { kind: 'heading', value: 89 },
  { kind: 'runway', value: '27L' },
  { kind: 'time', value: '0715' },
  { kind: 'identifier', value: 'A3' },
  { kind: 'weight', unit: 'kg', say: 'thousands', value: 8400 },
  { kind: 'choice', options: { up: ['up'], '5': ['five'] }, value: '5' },
]

describe('whatever is heard, there is a verdict', () => {
  it('for any text, figure and alternatives', () => {
    fc.assert(
      fc.property(GARBAGE, GARBAGE, fc.constantFrom(...FIGURES), (heard, other, figure) => {
        const judged = judgeText({ ...ITEM, figures: { trim: figure }, heard, alternatives: [{ text: other }] })
        return ['correct', 'negative', 'incomplete', 'sayAgain', 'command'].includes(judged.verdict)
      }),
      { numRuns: cases(3000) },
    )
  })

  it.each([
    ['10,000 characters', 'five point two up '.repeat(600)],
    ['10,000 digits', '5'.repeat(10_000)],
    ['10,000 characters without a space', 'a'.repeat(10_000)],
    ['control characters', '\u0000\u0001\u001b[31m'],
    ['lone surrogates', '\ud800 five \udc00'],
    ['nothing', ''],
  ])('for %s', (_name, heard) => {
    expect(judgeText({ ...ITEM, heard }).verdict).not.toBe('correct')
  })

  it.each([
    ['a figure that is not there', { ...ITEM, figures: {} }],
    ['a value that is no number', { ...ITEM, figures: { trim: { ...TRIM, value: Number.NaN } } }],
    ['a figure named like a property of objects', { ...ITEM, response: '<constructor>' }],
  ])('for %s, and it is not correct', (_name, item) => {
    expect(judgeText({ ...item, heard: 'five point two up' }).verdict).toBe('sayAgain')
  })

  it('for a response that asks for nothing, and it is not correct', () => {
    expect(judge({ ...ITEM, response: NOTHING, heard: transcriptOf('five point two up') }).verdict).toBe('sayAgain')
  })

  it('for negative zero, which is zero', () => {
    const zero: Figure = { ...TRIM, value: -0 }
    expect(judgeText({ ...ITEM, figures: { trim: zero }, heard: 'zero' })).toMatchObject({
      verdict: 'correct',
      parts: [{ read: 0 }],
    })
  })
})

describe('the verdict never leans towards the right answer', () => {
  it('a number lands at the same part whether it is right or wrong', () => {
    fc.assert(
      fc.property(fc.integer({ min: 100, max: 199 }), fc.integer({ min: 100, max: 199 }), (said, expected) => {
        const of = (value: number) =>
          judgeText({ response: '<v> [set]', figures: { v: { kind: 'speed', value } }, heard: `${said} set` })
        const judged = of(expected)
        const words = (judgement: typeof judged) => judgement.parts.map(({ name, heard, read }) => [name, heard, read])
        return words(judged).join() === words(of(said)).join() && (judged.verdict === 'correct') === (said === expected)
      }),
    )
  })

  it('an equally likely alternative can take a verdict away, never give one', () => {
    fc.assert(
      fc.property(GARBAGE, GARBAGE, (heard, other) => {
        const alone = judgeText({ ...ITEM, heard }).verdict
        const together = judgeText({ ...ITEM, heard, alternatives: [{ text: other }] }).verdict
        return together === alone || together === 'sayAgain'
      }),
      { numRuns: cases(1500) },
    )
  })
})

describe('a question', () => {
  const brake = {
    response: responseFrom('set'),
    figures: {},
    states: [['set'], ['released']],
    challenge: 'parking brake',
  }
  it.each(['set?', 'is the brake set', 'parking brake set?', 'is it set'])('%s answers nothing', (text) => {
    expect(judge({ ...brake, heard: transcriptOf(text) }).verdict).not.toBe('correct')
  })
  it('nor does a value with a sign behind it', () => {
    const figures = { w: { kind: 'weight', unit: 'kg', value: 24360 } } as const
    const heard = transcriptOf('two four three six zero set minus')
    expect(judge({ response: responseFrom('<w> [set]'), figures, heard }).verdict).not.toBe('correct')
  })
})
