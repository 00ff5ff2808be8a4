import { describe, expect, it } from 'vitest'
import type { Figures } from '../../../src/kernel/kinds/kind.ts'
import { judgeText, type TextInput } from '../../corpus/judgeText.ts'

const figures: Figures = { trim: { kind: 'trim', decimals: 1, axis: 'pitch', value: 5.2 } }
const judged = (heard: string, response = '<trim> [set]', more: Partial<TextInput> = {}) =>
  judgeText({ heard, challenge: 'takeoff trim', response, figures, ...more })

describe('said to be done, without its value', () => {
  it.each([
    ...['checked', 'set', 'okay', 'normal', 'yes', 'same', 'confirmed', 'that is set', 'uh checked', 'set and checked'],
    ...['takeoff trim set', 'trim checked', 'all good', 'yes, it is correct'],
  ])('"%s" is incomplete for a reason of its own', (heard) => {
    const { verdict, because, parts } = judged(heard)
    expect([verdict, because]).toEqual(['incomplete', 'valueless'])
    expect(parts.at(-1)).toEqual({ name: 'trim', kind: 'figure', state: 'missing' })
  })

  it.each(['', 'uh', 'the', 'say what', 'not set', 'the captain', 'five', 'unset', 'affirm', 'let me see'])(
    '"%s" is not',
    (heard) => {
      expect(judged(heard).because).not.toBe('valueless')
    },
  )

  it('is no answer for an item of words, which may be answered so', () => {
    expect(judged('set', 'brake set').because).not.toBe('valueless')
    expect(judged('checked', '(<trim> | checked)').verdict).toBe('correct')
    expect(judged('checked', '[<trim>] briefed').because).not.toBe('valueless')
  })

  it('is none where a part of the value was said in the breath before', () => {
    expect(judged('set', '<trim> [set]', { begun: { trim: 'five point two' } }).because).not.toBe('valueless')
  })
})
