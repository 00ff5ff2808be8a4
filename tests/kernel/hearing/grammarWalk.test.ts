import { describe, expect, it } from 'vitest'
import {
  alternatives,
  type Grammar,
  NOTHING,
  optional,
  type RuleExpansion,
  rule,
  sequence,
  weighted,
} from '../../../src/kernel/grammarRules.ts'
import { grammarOf } from '../../../src/kernel/hearing/grammar.ts'
import { type GrammarState, startOf } from '../../../src/kernel/hearing/grammarWalk.ts'
import type { Hearable } from '../../../src/kernel/hearing/hearable.ts'
import { SOUND } from '../../../src/kernel/hearing/phones.ts'
import { vocabularyOfItems } from '../../../src/kernel/hearing/vocabulary.ts'
import { VALUE_ITEMS, WORD_ITEMS } from '../../bench/earCases.ts'

/** The state after a text; undefined where it cannot be said. */
function stateAfter(from: GrammarState, text: string): GrammarState | undefined {
  return text
    .split(' ')
    .filter((word) => word !== '')
    .reduce<GrammarState | undefined>((state, word) => state?.next.get(word)?.(), from)
}
const isSayable = (from: GrammarState, text: string) => stateAfter(from, text)?.isFinal === true

const grammar = (heard: RuleExpansion, others: Readonly<Record<string, RuleExpansion>> = {}): Grammar => ({
  start: 'heard',
  rules: Object.entries({ ...others, heard }).map(([name, expansion]) => ({ name, expansion })),
})

describe('words that may follow', () => {
  const start = startOf(
    grammar(
      sequence(
        alternatives('brake', sequence('all', optional('the'), 'pumps')),
        rule('state'),
        alternatives(weighted(1, NOTHING), weighted(0.2, rule('heard'))),
      ),
      { state: alternatives(weighted(5, 'on'), weighted(0.1, 'off')) },
    ),
  )

  it.each(['brake on', 'all pumps off', 'all the pumps on', 'brake on brake off all pumps on'])(
    'make a whole of "%s"',
    (text) => {
      expect(isSayable(start, text)).toBe(true)
    },
  )

  it.each(['', 'brake', 'all the', 'brake on all'])('leave more to be said after "%s"', (text) => {
    expect(stateAfter(start, text)?.isFinal).toBe(false)
  })

  it.each(['on', 'brake pumps', 'the pumps on', 'brake on on'])('do not include "%s"', (text) => {
    expect(stateAfter(start, text)).toBeUndefined()
  })

  it('are without those that are left out', () => {
    const states = grammar(alternatives(sequence('brake', 'on'), sequence('brake', 'off')))
    const without = startOf(states, new Set(['off']))
    expect([...(stateAfter(without, 'brake')?.next.keys() ?? [])]).toEqual(['on'])
  })

  it('stay few where a grammar has many ways to the same place: else this would never end', () => {
    const one = alternatives('one', 'one', sequence(optional('one'), 'one'))
    const many = startOf(grammar(sequence(rule('one'), optional(rule('heard'))), { one }))
    expect(isSayable(many, Array(200).fill('one').join(' '))).toBe(true)
  })

  it('are not guessed where the grammar names a rule that it does not have', () => {
    expect(() => startOf(grammar(rule('state')))).toThrow('<state>')
  })
})

describe('by the grammar of an item', () => {
  const vocabulary = vocabularyOfItems([...WORD_ITEMS, ...VALUE_ITEMS], [])
  const of = (...shapes: Hearable['shapes']) =>
    startOf(grammarOf({ shapes, yesNo: false }, vocabulary), new Set([SOUND]))

  it('any code can be said, and also what has another length', () => {
    const start = of({ kind: 'digits', length: 4 })
    for (const text of [
      'four two seven one',
      'zero zero zero zero',
      'niner',
      'forty two seventy one',
      'four two seven',
    ])
      expect(isSayable(start, text), text).toBe(true)
  })

  it('a state, its contrary and "not" can be said', () => {
    for (const text of ['closed and locked', 'closed and unlocked', 'not closed and locked', 'brake released'])
      expect(isSayable(of(), text), text).toBe(true)
  })

  it('a correction can follow', () => {
    expect(isSayable(of({ kind: 'trim', decimals: 1 }), 'five point two up correction five point three up')).toBe(true)
  })
})
