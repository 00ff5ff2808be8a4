/** Mach numbers as they are said, against a figure of .78 and others. Sources of the forms: `outside/numbersSpoken.test.ts`. */

import { describe, expect, it } from 'vitest'
import { valueProblems } from '../../../src/kernel/figures/entered.ts'
import { roundingOf } from '../../../src/kernel/figures/rounding.ts'
import { hasAnswerShape } from '../../../src/kernel/hearing/answerShape.ts'
import { completeness } from '../../../src/kernel/hearing/completeness.ts'
import { numberShapes, valueWords } from '../../../src/kernel/hearing/numberShapes.ts'
import type { Figure, KindSpec } from '../../../src/kernel/kinds/kind.ts'
import { scaleOf } from '../../../src/kernel/kinds/table.ts'
import { findCauses } from '../../../src/kernel/response/causes.ts'
import { judgeText } from '../../corpus/judgeText.ts'

const mach = (value: number, decimals?: number): Figure =>
  decimals === undefined ? { kind: 'mach', value } : { kind: 'mach', decimals, value }
const heard = (figure: Figure, text: string, phraseology: 'plain' | 'standard' = 'plain') =>
  judgeText({ response: '<x> [set]', figures: { x: figure }, heard: text, phraseology })

describe('a Mach number', () => {
  it.each([
    [0.78, 'mach decimal seven eight', 'correct', undefined],
    [0.78, 'decimal seven eight', 'correct', undefined],
    [0.78, 'point seven eight', 'correct', undefined],
    [0.78, 'mach point seven eight, set', 'correct', undefined],
    [0.78, 'mach zero point seven eight', 'correct', undefined],
    [0.78, 'mach seven eight', 'correct', undefined],
    [0.78, 'point seventy eight', 'correct', undefined],
    [0.78, 'M.78', 'correct', undefined],
    [0.78, 'mach 0.78', 'correct', undefined],
    [0.8, 'mach point eight', 'correct', undefined],
    [0.8, 'mach decimal eight zero', 'correct', undefined],
    [1.2, 'mach one point two', 'correct', undefined],
    [1, 'mach one', 'correct', undefined],
    [0.78, 'mach point seven niner', 'negative', 'value'],
    [0.78, 'mach point eight seven', 'negative', 'value'],
    [0.78, 'mach point eight', 'negative', 'value'],
    [0.78, 'mach point seven', 'incomplete', 'missing'],
    [0.78, 'mach', 'sayAgain', 'notUnderstood'],
    [0.78, 'two five zero knots', 'negative', 'unit'],
    [0.78, 'seven eight knots', 'negative', 'unit'],
    [0.78, 'mach seven eight eight', 'sayAgain', 'implausible'],
    [0.78, 'mach four point two', 'sayAgain', 'implausible'],
  ] as const)('%f: "%s" is %s (%s)', (value, text, verdict, because) => {
    const judgement = heard(mach(value), text)
    expect([judgement.verdict, judgement.because]).toEqual([verdict, because])
  })

  it('is said with its point where phraseology is standard', () => {
    expect(heard(mach(0.78), 'mach decimal seven eight', 'standard').verdict).toBe('correct')
    expect(heard(mach(0.78), 'mach seven eight', 'standard')).toMatchObject({ verdict: 'sayAgain', because: 'form' })
  })

  it('has as many decimals as its figure', () => {
    expect(heard(mach(0.785, 3), 'mach point seven eight five').verdict).toBe('correct')
    expect(heard(mach(0.785, 3), 'mach point seven eight').verdict).toBe('incomplete')
    expect(heard(mach(0.8, 1), 'mach point eight').verdict).toBe('correct')
    expect(heard(mach(0.8, 1), 'mach point eight two').verdict).toBe('negative')
  })

  it('is rounded to a hundredth, within the instrument’s scale', () => {
    const spec: KindSpec = { kind: 'mach', max: 0.92 }
    expect(roundingOf({ spec })).toEqual({ step: 0.01, direction: 'nearest' })
    expect(scaleOf(spec)).toEqual({ min: 0, max: 0.92 })
    const declaration = { name: 'm', label: 'cruise Mach', spec, alsoCalled: [], input: true }
    expect(valueProblems(declaration, 0.78)).toEqual([])
    expect(valueProblems(declaration, 0.95)[0]?.message).toBe('cruise Mach 0.95 is out of range: at most 0.92')
  })

  it('read with its digits swapped is known for that', () => {
    expect(findCauses({ figure: 'x', read: 0.87, figures: { x: mach(0.78) } })).toEqual([
      { cause: 'digitsSwapped', detail: 'seven eight' },
    ])
  })

  it('is another unit to a speed in knots', () => {
    const verdict = heard({ kind: 'speed', value: 250 }, 'mach decimal seven eight')
    expect(verdict).toMatchObject({ verdict: 'negative', because: 'unit' })
  })
})

describe('what is listened for where a Mach number is asked', () => {
  const shapes: readonly KindSpec[] = [{ kind: 'mach' }]
  const said = (text: string) => completeness({ shapes, least: { parts: 1, values: 1 }, yesNo: false }, text)

  it('is a point and two digits, with a digit before or without, or the two digits alone', () => {
    const forms = ['dd', 'e', 'y', 'yd']
    expect(numberShapes({ kind: 'mach' })).toEqual([
      ...forms.map((one) => `.${one}`),
      ...forms.map((one) => `d.${one}`),
      'dd',
    ])
    expect(numberShapes({ kind: 'mach', decimals: 1 })).toEqual(['.d', 'd.d', 'd'])
    expect(valueWords({ kind: 'mach' })).toEqual(['mach'])
  })

  it('goes on until its decimals are there', () => {
    expect(['mach', 'mach point', 'mach point seven', 'mach point seven eight', 'seven eight'].map(said)).toEqual([
      'partial',
      'partial',
      'partial',
      'final',
      'final',
    ])
  })

  it('is no long number', () => {
    expect(hasAnswerShape(shapes, 'cruise mach', 'mach point seven eight')).toBe(true)
    expect(hasAnswerShape(shapes, 'cruise mach', 'one two three four five six')).toBe(false)
  })
})
