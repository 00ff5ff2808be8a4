/** The beam over the pieces of words, with a model that is made up. */

import { describe, expect, it } from 'vitest'
import { likeliest, type Row, type WordPieces } from '../../../../src/adapters/ear/rescorer/beam.ts'
import { alternatives, type Expansion, sequence } from '../../../../src/kernel/hearing/expansion.ts'
import { startOf } from '../../../../src/kernel/hearing/grammarWalk.ts'

const [BEGIN, END, STOP, COMMA] = [1, 2, 3, 4]
/** Each letter is a piece. */
const PIECES: WordPieces = {
  begin: BEGIN,
  end: END,
  stop: STOP,
  comma: COMMA,
  of: (word) => [...word].map((letter) => letter.charCodeAt(0)),
}
const places = (expansion: Expansion) => startOf({ start: 'heard', rules: [{ name: 'heard', expansion }] })

/** Knows one saying, piece by piece, and finds each other piece so much less likely. */
function modelOf(saying: string, unlikely: number) {
  const pieces = [...saying].map((letter) => ({ '.': STOP, ',': COMMA })[letter] ?? letter.charCodeAt(0))
  const wanted = [...pieces, END]
  let length = 0
  let most = 0
  return {
    most: () => most,
    length: () => length,
    async go(rows: readonly Row[]) {
      most = Math.max(most, rows.length)
      const at = length++
      return rows.map(() => (piece: number) => (piece === wanted[at] ? -0.1 : unlikely))
    },
  }
}
const bestOf = (found: ReadonlyMap<string, number>) => [...found].sort(([, one], [, other]) => other - one)[0]

describe('what the beam finds', () => {
  it('is what the model would write, within what may be said', async () => {
    const { go } = modelOf('ab.', -5)
    const found = await likeliest(places(alternatives('ab', 'ac', 'abc')), { pieces: PIECES, go, longest: 20 })
    expect(bestOf(found)?.[0]).toBe('ab')
    // Four pieces: two letters, the full stop and the end.
    expect(bestOf(found)?.[1]).toBeCloseTo(-0.4)
  })

  it('is never what may not be said, however likely', async () => {
    const { go } = modelOf('ax.', -5)
    const found = await likeliest(places(alternatives('ab', 'ac')), { pieces: PIECES, go, longest: 20 })
    expect([...found.keys()].sort()).toEqual(['ab', 'ac'])
  })

  it('is written in one breath or with commas, and has the same words', async () => {
    for (const saying of ['ab.', 'a,b.']) {
      const found = await likeliest(places(sequence('a', 'b')), {
        pieces: PIECES,
        go: modelOf(saying, -5).go,
        longest: 20,
      })
      expect(bestOf(found)?.[0]).toBe('a b')
      expect(bestOf(found)?.[1]).toBeCloseTo(-0.1 * (saying.length + 1))
    }
  })

  it('is nothing where a saying is not at its end in time, and no row too many is asked for', async () => {
    const model = modelOf('aaaaaaaa.', -5)
    const found = await likeliest(
      places(alternatives(sequence(...'aaaaaaaa'), sequence(...'bbb'), sequence(...'cde'))),
      {
        pieces: PIECES,
        go: model.go,
        longest: 3,
      },
    )
    expect([...found]).toEqual([])
    expect(model.length()).toBe(3)
    expect(model.most()).toBe(3)
  })
})
