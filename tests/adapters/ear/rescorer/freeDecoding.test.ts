/** What is heard where anything may be said, with a model that is made up. */

import { describe, expect, it } from 'vitest'
import type { Row, TokenModel } from '../../../../src/adapters/ear/rescorer/beam.ts'
import { decodeFreely } from '../../../../src/adapters/ear/rescorer/freeDecoding.ts'
import { WORD_TOKENS } from '../../../../src/adapters/ear/rescorer/tokens.ts'

const { begin, end } = WORD_TOKENS
const COUNT = 50
/** A word may begin with tokens from 10 on. */
const isOfWord = (token: number) => token >= 10

/** At each place the tokens that it finds likely; every other one is not. */
function modelOf(places: readonly Readonly<Record<number, number>>[], longest = 20) {
  const asked: Row[] = []
  const model: TokenModel = {
    tokens: WORD_TOKENS,
    longest,
    async step(rows) {
      asked.push(...rows)
      return rows.map(() => (token: number) => places[asked.length - 1]?.[token] ?? -9)
    },
  }
  return { model, asked }
}

describe('what the second model decodes freely', () => {
  it('is the likeliest token at each place, up to the end', async () => {
    const { model, asked } = modelOf([
      { 12: -0.1, 13: -2 },
      { 40: -0.2, 12: -3 },
      { [end]: -0.3, 12: -2 },
    ])
    const { tokens, logProb } = await decodeFreely(model, COUNT, isOfWord)
    expect(tokens).toEqual([12, 40])
    expect(logProb).toBeCloseTo(-0.6)
    // Each goes on from the one before.
    expect(asked).toEqual([begin, 12, 40].map((token) => ({ from: 0, token })))
  })

  it('begins with a word, though nothing and a sign are likelier', async () => {
    const { model } = modelOf([{ [end]: -0.1, 5: -0.5, 12: -3 }, { [end]: -0.1 }])
    const { tokens, logProb } = await decodeFreely(model, COUNT, isOfWord)
    expect(tokens).toEqual([12])
    expect(logProb).toBeCloseTo(-3.1)
  })

  it('is no longer than it may be', async () => {
    const { model } = modelOf(
      Array.from({ length: 9 }, () => ({ 12: -0.1 })),
      4,
    )
    expect((await decodeFreely(model, COUNT, isOfWord)).tokens).toEqual([12, 12, 12, 12])
  })
})
