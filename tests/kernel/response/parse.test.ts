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
    ['< trim > set', ['trim'], ['set']],
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

describe('a response text may', () => {
  it('have blanks inside a tag', () => {
    expect(parsed('on { first }')).toEqual({ type: 'words', words: ['on'], tag: 'first' })
  })

  it('nest twenty brackets, and no more', () => {
    const nested = (depth: number) => problems(`${'('.repeat(depth)}set${')'.repeat(depth)}`)
    expect(nested(20)).toEqual([])
    expect(nested(21)).toContainEqual([20, 'brackets nested deeper than 20'])
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
    ['/2/ a', 0, 'of two answers that are right write (one | other)'],
    ['closed / locked', 7, '"/" is not used'],
    ['____ pounds', 0, '"____" is a blank'],
    ['“set”', 0, 'printed quotation mark'],
    ['{tag} a', 0, 'nothing before the tag'],
    ['a {}', 2, 'empty tag'],
    ['a {  }', 2, 'empty tag; a tag names its part, such as {left}'],
    ['[a] {one}', 4, 'nothing before the tag to name'],
    ['a {one} {two}', 8, 'nothing before the tag to name'],
    ['<2nd>', 0, '<2nd> is no figure name; a name is letters and digits, such as <trim>'],
    ['[set', 0, '"[" is not closed by "]"'],
    ['(set]', 0, '"(" is not closed by ")"'],
    ['flap +', 5, '"+" is not used; write the words out'],
    ['trim>', 4, '">" without its partner; a figure is written <name>'],
    ['a {left', 2, '"{" without its partner; a tag is written {name}'],
    ['left}', 4, '"}" without its partner; a tag is written {name}'],
    ['set!', 3, '"!" cannot stand in a response; use words, <figure>, ( ), [ ], | and {tag}'],
  ])('"%s" at %i', (text, offset, message) => {
    const found = problems(text)
    expect(found.map(([at]) => at)).toContain(offset)
    expect(found.find(([at]) => at === offset)?.[1]).toContain(message)
  })

  it('all of them at once, in order', () => {
    expect(problems('a* <b c> {').map(([offset]) => offset)).toEqual([1, 3, 9])
    expect(problems('(on* set').map(([offset]) => offset)).toEqual([0, 3])
  })

  it.each(['on)', 'on) set'])('"%s" has no other fault than the bracket', (text) => {
    expect(problems(text)).toEqual([[2, '")" without an opening bracket']])
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
