import { describe, expect, it } from 'vitest'
import { MOST_PATHS, MOST_WORDINGS } from '../../../src/kernel/bounds.ts'
import { phrasesOf } from '../../../src/kernel/response/expansion.ts'
import { allOf, anyOf, NOTHING, optionalFigures, responseFrom } from '../../../src/kernel/response/response.ts'

describe('the ways to say', () => {
  it.each([
    ['[now] set [on]', ['set', 'set on', 'now set', 'now set on']],
    ['[[now] [on]]', ['', '', 'on', 'now', 'now on']],
    ['set | [now] | all on', ['set', '', 'now', 'all on']],
  ])('%s', (text, ways) => {
    expect(phrasesOf(responseFrom(text).tree)).toEqual(ways)
  })

  it('a phrase are cut where nobody could say them all, and so are the ways through figures', () => {
    const eight = '(a | b | c | d | e | f | g | h)'
    expect(phrasesOf(responseFrom(`${eight} ${eight} ${eight}`).tree)).toHaveLength(MOST_WORDINGS)
    const many = Array.from({ length: 201 }, (_, index) => `way${index}`).join(' | ')
    expect(phrasesOf(responseFrom(many).tree)).toHaveLength(MOST_WORDINGS)
    const three = '(<a> | <b> | <c>)'
    expect(responseFrom(`${three} ${three} ${three} ${three}`).paths).toHaveLength(MOST_PATHS)
    expect(responseFrom(Array.from({ length: 65 }, (_, index) => `<a${index}>`).join(' | ')).paths).toHaveLength(
      MOST_PATHS,
    )
  })
})

describe('the words between the figures of', () => {
  it.each([
    ['<x> now [on] <y>', ['now', 'on']],
    ['[<x> set] on', ['set', 'on']],
    ['full left {left} <x> | (now <z>)', ['full left', 'now']],
    ['[now] [on]', ['on', 'now', 'now on']],
    ['(now | [on]) set', ['now set', 'set', 'on set']],
    ['on | on', ['on']],
  ])('%s', (text, wordings) => {
    expect(responseFrom(text).wordings).toEqual(wordings)
  })
})

describe('any one of some responses', () => {
  const [lamp, value, named] = [responseFrom('on | off'), responseFrom('<x> set'), responseFrom('(a | b) {which}')]

  it('is itself where there is one', () => {
    expect(anyOf([lamp])).toBe(lamp)
  })

  it('has the ways of all', () => {
    const any = anyOf([lamp, value])
    expect(any).toMatchObject({ text: 'on | off | <x> set', figures: ['x'], wordings: ['on', 'off', 'set'] })
    expect(any.tree).toMatchObject({ type: 'either', options: [{ words: ['on'] }, { words: ['off'] }, value.tree] })
    expect(any.paths).toHaveLength(3)
  })

  it('keeps a group with a name together', () => {
    expect(anyOf([lamp, named]).tree).toMatchObject({ options: [{ words: ['on'] }, { words: ['off'] }, named.tree] })
  })
})

describe('responses one after the other', () => {
  const [lamp, value, named] = [responseFrom('on | off'), responseFrom('<x> set'), responseFrom('now <y>')]

  it('are one response, with alternatives in brackets', () => {
    const all = allOf([lamp, value, named])
    expect(all).toMatchObject({ text: '(on | off) <x> set now <y>', figures: ['x', 'y'] })
    expect(all.tree).toEqual({
      type: 'sequence',
      parts: [lamp.tree, { type: 'figure', name: 'x' }, { type: 'words', words: ['set'] }, ...partsOf(named.tree)],
    })
  })

  it('are the same object for the same ones in the same order', () => {
    expect(allOf([lamp, value])).toBe(allOf([lamp, value]))
    expect(allOf([lamp, value])).not.toBe(allOf([value, lamp]))
    expect(allOf([lamp, value, named])).not.toBe(allOf([lamp, value]))
    expect(allOf([lamp])).toBe(lamp)
  })

  it('are nothing where there are none', () => {
    expect(allOf([])).toBe(NOTHING)
    expect(NOTHING).toMatchObject({ text: '', figures: [], wordings: [], least: { values: 0, parts: 0 }, paths: [] })
    expect(NOTHING.tree).toEqual({ type: 'sequence', parts: [] })
  })
})

it('figures that may be said are each alone, or none', () => {
  expect(optionalFigures(['x', 'y'])).toMatchObject({
    text: '[<x>] [<y>]',
    figures: ['x', 'y'],
    wordings: [],
    least: { values: 0, parts: 0 },
  })
  expect(optionalFigures(['x', 'y']).paths).toEqual(responseFrom('[<x>] [<y>]').paths)
})

it('a text that is none, where one must be, tells all that is wrong with it', () => {
  expect(() => responseFrom('on* (')).toThrow(
    '"on* (" is no response: "*" is not used; write the words out; "(" is not closed by ")"; nothing here',
  )
})

const partsOf = (tree: ReturnType<typeof responseFrom>['tree']) => (tree.type === 'sequence' ? tree.parts : [tree])
