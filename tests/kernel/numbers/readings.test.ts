import { describe, expect, it } from 'vitest'
import { readNumber } from '../../../src/kernel/numbers/readings.ts'
import { sayCardinal, sayDigits } from '../../../src/kernel/numbers/say.ts'
import { tokensOf } from '../../../src/kernel/numbers/tokens.ts'

/** First understandings as "whole" or "whole.fraction". */
function firsts(text: string): string[] {
  return readNumber(tokensOf(text))
    .filter(({ secondary }) => !secondary)
    .map(({ whole, fraction }) => (fraction === undefined ? whole : `${whole}.${fraction}`))
}

describe('words heard become numbers', () => {
  it.each([
    ['one two eight', '128'],
    ['one twenty-eight', '128'],
    ['one hundred, twenty-eight', '128'],
    ['a hundred and twenty eight', '128'],
    ['ten thirteen', '1013'],
    ['twenty-nine ninety-two', '2992'],
    ['twelve hundred', '1200'],
    ['one two thousand five hundred', '12500'],
    ['one hundred twenty thousand', '120000'],
    ['seven triple zero', '7000'],
    ['double four two seven', '4427'],
    ['fower fife niner', '459'],
    ['won to for ate', '1248'],
    ['one 28', '128'],
    ['8 thousand 400', '8400'],
    ['8,400', '8400'],
    ['14:35', '1435'],
    ['five point two', '5.2'],
    ['point five', '.5'],
    ['5.2', '5.2'],
    ['twenty nine decimal ninety two', '29.92'],
  ])('%s is %s', (text, number) => {
    expect(firsts(text)).toEqual([number])
  })

  it.each([
    ['one two hundred'],
    ['five point two point one'],
    ['double double two'],
    ['half'],
    ['eight thousand four two seven'],
    ['thousand'],
    [''],
  ])('"%s" is no number', (text) => {
    expect(readNumber(tokensOf(text))).toEqual([])
  })

  it('knows the other understanding of a ten and a unit as a second one only', () => {
    const readings = readNumber(tokensOf('twenty eight'))
    expect(readings.map(({ whole, secondary }) => [whole, secondary])).toEqual([
      ['28', false],
      ['208', true],
    ])
  })

  it('reads back every number to ten thousand as it says it', () => {
    const numbers = Array.from({ length: 10_000 }, (_, n) => String(n))
    const off = numbers.filter(
      (n) => firsts(sayCardinal(Number(n))).join() !== n || firsts(sayDigits(n, true)).join() !== n,
    )
    expect(off).toEqual([])
  })
})

describe('text comes apart into words', () => {
  it.each([
    ['FL350', ['fl', '350']],
    ['27L', ['27', 'l']],
    ['5.2up', ['5', '.', '2', 'up']],
    ['-5°C', ['minus', '5', 'degrees', 'c']],
    ['un-locked', ['unlocked']],
    ['take-off', ['take', 'off']],
    ['26.4%', ['26', '.', '4', 'percent']],
    ['Isn’t set.', ["isn't", 'set']],
    ['a, b.', ['a', 'b']],
  ])('%s', (text, words) => {
    expect(tokensOf(text).map((token) => token.text)).toEqual(words)
  })

  it('keeps digits of other scripts as foreign words that are no numbers', () => {
    const tokens = tokensOf('٥ ５ 五 ²')
    expect(tokens.every(({ foreign, number }) => foreign && number === undefined)).toBe(true)
  })
})
