import { describe, expect, it } from 'vitest'
import { grammarOf } from '../../../src/kernel/hearing/grammar.ts'
import type { Hearable } from '../../../src/kernel/hearing/hearable.ts'
import { SOUND } from '../../../src/kernel/hearing/phones.ts'
import { type Places, sayableBy } from '../../../src/kernel/hearing/sayable.ts'
import { vocabularyOfItems } from '../../../src/kernel/hearing/vocabulary.ts'
import { VALUE_ITEMS, WORD_ITEMS } from '../../bench/earCases.ts'

/** The place behind a text; undefined where it cannot be said. */
function behind(from: Places, text: string): Places | undefined {
  return text
    .split(' ')
    .filter((word) => word !== '')
    .reduce<Places | undefined>((at, word) => at?.next.get(word)?.(), from)
}
const isSayable = (from: Places, text: string) => behind(from, text)?.mayEnd === true

const grammar = (...rules: readonly string[]) => `#JSGF V1.0;\ngrammar ear;\n${rules.join('\n')}\n`

describe('words that may follow', () => {
  // Groups, optional parts, weights, <NULL> and rules: JSpeech Grammar Format, W3C note of June 2000 (from memory).
  const places = sayableBy(
    grammar(
      '<state> = /5/ on | /0.1/ off;',
      'public <heard> = (brake | all [the] pumps) <state> (/1/ <NULL> | /0.2/ <heard>);',
    ),
  )

  it.each(['brake on', 'all pumps off', 'all the pumps on', 'brake on brake off all pumps on'])(
    'make a whole of "%s"',
    (text) => {
      expect(isSayable(places, text)).toBe(true)
    },
  )

  it.each(['', 'brake', 'all the', 'brake on all'])('leave more to be said behind "%s"', (text) => {
    expect(behind(places, text)?.mayEnd).toBe(false)
  })

  it.each(['on', 'brake pumps', 'the pumps on', 'brake on on'])('do not include "%s"', (text) => {
    expect(behind(places, text)).toBeUndefined()
  })

  it('are without those that are left out', () => {
    const without = sayableBy(grammar('public <heard> = brake on | brake off;'), new Set(['off']))
    expect([...(behind(without, 'brake')?.next.keys() ?? [])]).toEqual(['on'])
  })

  it('stay few where a grammar has many ways to the same place: else this would never end', () => {
    const many = sayableBy(grammar('<one> = (one | one | [one] one);', 'public <heard> = <one> [<heard>];'))
    expect(isSayable(many, Array(200).fill('one').join(' '))).toBe(true)
  })
})

describe('by the grammar of an item', () => {
  const vocabulary = vocabularyOfItems([...WORD_ITEMS, ...VALUE_ITEMS], [])
  const of = (...shapes: Hearable['shapes']) =>
    sayableBy(grammarOf({ shapes, yesNo: false }, vocabulary), new Set([SOUND]))

  it('any code can be said, and also what has another length', () => {
    const places = of({ kind: 'digits', length: 4 })
    for (const text of [
      'four two seven one',
      'zero zero zero zero',
      'niner',
      'forty two seventy one',
      'four two seven',
    ])
      expect(isSayable(places, text), text).toBe(true)
  })

  it('a state, its contrary and "not" can be said', () => {
    for (const text of ['closed and locked', 'closed and unlocked', 'not closed and locked', 'brake released'])
      expect(isSayable(of(), text), text).toBe(true)
  })

  it('a correction can follow', () => {
    expect(isSayable(of({ kind: 'trim', decimals: 1 }), 'five point two up correction five point three up')).toBe(true)
  })
})
