import { expect, it } from 'vitest'
import { figuresWords } from '../../src/app/view/figuresWords.ts'

it.each([
  ['preliminary', 1, 'preliminary figures'],
  ['preliminary', 2, 'preliminary figures, changed once (revision 2)'],
  ['final', 3, 'final figures, changed twice (revision 3)'],
  ['amended', 5, 'amended figures, changed 4 times (revision 5)'],
] as const)(
  '%s figures of revision %i are called by how often they changed, as no paper is',
  (status, revision, words) => expect(figuresWords(status, revision)).toBe(words),
)
