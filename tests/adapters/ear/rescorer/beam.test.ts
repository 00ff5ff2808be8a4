/** The beam over the tokens of words, with a model that is made up. */

import { describe, expect, it } from 'vitest'
import { likeliest, type Row, type WordTokens } from '../../../../src/adapters/ear/rescorer/beam.ts'
import { alternatives, type RuleExpansion, sequence } from '../../../../src/kernel/grammarRules.ts'
import { startOf } from '../../../../src/kernel/hearing/grammarWalk.ts'

const [BEGIN, END, STOP, COMMA] = [1, 2, 3, 4]
/** Each letter is a token. */
const TOKENS: WordTokens = {
  begin: BEGIN,
  end: END,
  stop: STOP,
  comma: COMMA,
  of: (word) => [...word].map((letter) => letter.charCodeAt(0)),
}
const stateOf = (expansion: RuleExpansion) => startOf({ start: 'heard', rules: [{ name: 'heard', expansion }] })

/** Knows one text, token by token, and finds each other token this unlikely. */
function modelOf(text: string, unlikely: number) {
  const tokens = [...text].map((letter) => ({ '.': STOP, ',': COMMA })[letter] ?? letter.charCodeAt(0))
  const wanted = [...tokens, END]
  let length = 0
  let most = 0
  return {
    most: () => most,
    length: () => length,
    async step(rows: readonly Row[]) {
      most = Math.max(most, rows.length)
      const at = length++
      return rows.map(() => (token: number) => (token === wanted[at] ? -0.1 : unlikely))
    },
  }
}
const bestOf = (found: ReadonlyMap<string, number>) => [...found].sort(([, one], [, other]) => other - one)[0]

describe('what the beam finds', () => {
  it('is what the model would write, within what may be said', async () => {
    const { step } = modelOf('ab.', -5)
    const found = await likeliest(stateOf(alternatives('ab', 'ac', 'abc')), { tokens: TOKENS, step, longest: 20 })
    expect(bestOf(found)?.[0]).toBe('ab')
    // Four tokens: two letters, the full stop and the end.
    expect(bestOf(found)?.[1]).toBeCloseTo(-0.4)
  })

  it('is never what may not be said, however likely', async () => {
    const { step } = modelOf('ax.', -5)
    const found = await likeliest(stateOf(alternatives('ab', 'ac')), { tokens: TOKENS, step, longest: 20 })
    expect([...found.keys()].sort()).toEqual(['ab', 'ac'])
  })

  it('is written in one breath or with commas, and has the same words', async () => {
    for (const text of ['ab.', 'a,b.']) {
      const found = await likeliest(stateOf(sequence('a', 'b')), {
        tokens: TOKENS,
        step: modelOf(text, -5).step,
        longest: 20,
      })
      expect(bestOf(found)?.[0]).toBe('a b')
      expect(bestOf(found)?.[1]).toBeCloseTo(-0.1 * (text.length + 1))
    }
  })

  it('is nothing where a text is not at its end in time, and no row too many is asked for', async () => {
    const model = modelOf('aaaaaaaa.', -5)
    const found = await likeliest(
      stateOf(alternatives(sequence(...'aaaaaaaa'), sequence(...'bbb'), sequence(...'cde'))),
      {
        tokens: TOKENS,
        step: model.step,
        longest: 3,
      },
    )
    expect([...found]).toEqual([])
    expect(model.length()).toBe(3)
    expect(model.most()).toBe(3)
  })
})
