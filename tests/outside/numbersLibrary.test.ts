/** Number words against a general library, where the two overlap: cardinals. Source: npm number-to-words 1.2.4 (MIT). */

import { toWords } from 'number-to-words'
import { describe, expect, it } from 'vitest'
import { readNumber } from '../../src/kernel/numbers/readings.ts'
import { sayCardinal } from '../../src/kernel/numbers/say.ts'
import { tokensOf } from '../../src/kernel/numbers/tokens.ts'

const NUMBERS = [
  ...Array.from({ length: 20_000 }, (_, n) => n),
  ...Array.from({ length: 979 }, (_, n) => 20_000 + n * 1001),
]

describe('cardinals agree with a general number-word library', () => {
  it('in what is said', () => {
    const plain = (words: string) => words.replace(/[-,]/g, ' ').replace(/ +/g, ' ')
    expect(NUMBERS.filter((n) => sayCardinal(n) !== plain(toWords(n)))).toEqual([])
  })

  it('in what is read', () => {
    const read = (words: string) => readNumber(tokensOf(words)).filter(({ secondary }) => !secondary)
    expect(
      NUMBERS.filter(
        (n) =>
          read(toWords(n))
            .map(({ whole }) => whole)
            .join() !== String(n),
      ),
    ).toEqual([])
  })
})
