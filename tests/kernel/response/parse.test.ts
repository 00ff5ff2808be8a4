import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Expansion } from '../../../src/kernel/response/expansion.ts'
import { parseResponse, responseFrom } from '../../../src/kernel/response/response.ts'

const parsed = (text: string): Expansion => responseFrom(text).tree

function problems(text: string): (readonly [number, string])[] {
  const result = parseResponse(text)
  return 'problems' in result ? result.problems.map(({ offset, message }) => [offset, message] as const) : []
}

describe('a response text is understood', () => {
  it.each([
    ['<takeoffTrim> [set]', ['takeoffTrim'], ['set']],
    ['(armed | on)', [], ['armed', 'on']],
    ['full left {left} full right {right}', [], ['full left full right']],
    ['V one <v1> rotate <vr> V two <v2>', ['v1', 'vr', 'v2'], ['v one', 'rotate', 'v two']],
    ['Checked, and set.', [], ['checked and set']],
    ['(<flap> set | (up | zero)) [now]', ['flap'], ['set', 'up', 'zero', 'now']],
    ['on | off', [], ['on', 'off']],
    ['<a>{first} <a>', ['a'], []],
  ])('%s', (text, figures, words) => {
    expect(responseFrom(text)).toMatchObject({ text, figures, wordings: words })
  })

  it('names a phrase, a figure and a group by its tag', () => {
    expect(parsed('full left {left} <x> {speed} (a | b) {which}')).toEqual({
      type: 'sequence',
      parts: [
        { type: 'words', words: ['full', 'left'], tag: 'left' },
        { type: 'figure', name: 'x', tag: 'speed' },
        {
          type: 'either',
          options: [
            { type: 'words', words: ['a'] },
            { type: 'words', words: ['b'] },
          ],
          tag: 'which',
        },
      ],
    })
  })
})

describe('a response text that is wrong says where and what would be right', () => {
  it.each([
    ['(armed | on', 0, 'not closed'],
    ['armed)', 5, 'without an opening bracket'],
    ['set [', 4, 'not closed'],
    ['', 0, 'nothing here'],
    ['a | ', 4, 'nothing here'],
    ['a ()', 3, 'nothing here'],
    ['<two words>', 0, 'no figure name'],
    ['<trim', 0, 'without its partner'],
    ['a*', 1, 'write the words out'],
    ['/2/ a', 0, 'weights are not used'],
    ['{tag} a', 0, 'nothing before the tag'],
    ['a {}', 2, 'empty tag'],
  ])('"%s" at %i', (text, offset, message) => {
    const found = problems(text)
    expect(found.map(([at]) => at)).toContain(offset)
    expect(found.find(([at]) => at === offset)?.[1]).toContain(message)
  })

  it('all of them at once, in order', () => {
    expect(problems('a* <b c> {').map(([offset]) => offset)).toEqual([1, 3, 9])
  })

  it('whatever the text, and never throws', () => {
    const alphabet = fc.constantFrom(
      'a',
      ' ',
      '(',
      ')',
      '[',
      ']',
      '|',
      '<',
      '>',
      '{',
      '}',
      '*',
      '/',
      ',',
      'é',
      '\u0000',
    )
    fc.assert(
      fc.property(fc.array(alphabet, { maxLength: 40 }), (characters) => {
        const result = parseResponse(characters.join(''))
        return 'response' in result || result.problems.length > 0
      }),
    )
    expect(problems('('.repeat(5000)).length).toBeGreaterThan(0)
  })
})

describe('every saying of a response has', () => {
  it.each([
    ['beacon on', 0, 0],
    ['<takeoffTrim> [set]', 1, 0],
    ['(<altimeter> | <altimeterInches>) [set]', 1, 0],
    ['V one <v1> rotate <vr> [V two <v2>]', 2, 0],
    ['brake set {brake} tug away {tug}', 0, 2],
    ['(all closed {doors} | doors <count>)', 0, 0],
  ])('%s: %i figures and %i parts', (text, values, parts) => {
    expect(responseFrom(text).least).toEqual({ values, parts })
  })
})
