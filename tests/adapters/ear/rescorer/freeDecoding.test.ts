/** What is heard where anything may be said, with a model that is made up. */

import { describe, expect, it } from 'vitest'
import type { Beam, Row } from '../../../../src/adapters/ear/rescorer/beam.ts'
import { freely } from '../../../../src/adapters/ear/rescorer/freeDecoding.ts'
import { WORD_PIECES } from '../../../../src/adapters/ear/rescorer/tokens.ts'

const { begin, end } = WORD_PIECES
const COUNT = 50
/** Of pieces from 10 on a word may be the beginning. */
const isWord = (piece: number) => piece >= 10

/** At each place the pieces that it finds likely; every other one is not. */
function modelOf(places: readonly Readonly<Record<number, number>>[], longest = 20) {
  const asked: Row[] = []
  const beam: Beam = {
    pieces: WORD_PIECES,
    longest,
    async go(rows) {
      asked.push(...rows)
      return rows.map(() => (piece: number) => places[asked.length - 1]?.[piece] ?? -9)
    },
  }
  return { beam, asked }
}

describe('what the weigher hears freely', () => {
  it('is the likeliest piece at each place, up to the end', async () => {
    const { beam, asked } = modelOf([
      { 12: -0.1, 13: -2 },
      { 40: -0.2, 12: -3 },
      { [end]: -0.3, 12: -2 },
    ])
    const { pieces, weight } = await freely(beam, COUNT, isWord)
    expect(pieces).toEqual([12, 40])
    expect(weight).toBeCloseTo(-0.6)
    // Each goes on from the one before.
    expect(asked).toEqual([begin, 12, 40].map((piece) => ({ from: 0, piece })))
  })

  it('begins with a word, though nothing and a sign are likelier', async () => {
    const { beam } = modelOf([{ [end]: -0.1, 5: -0.5, 12: -3 }, { [end]: -0.1 }])
    const { pieces, weight } = await freely(beam, COUNT, isWord)
    expect(pieces).toEqual([12])
    expect(weight).toBeCloseTo(-3.1)
  })

  it('is no longer than it may be', async () => {
    const { beam } = modelOf(
      Array.from({ length: 9 }, () => ({ 12: -0.1 })),
      4,
    )
    expect((await freely(beam, COUNT, isWord)).pieces).toEqual([12, 12, 12, 12])
  })
})
