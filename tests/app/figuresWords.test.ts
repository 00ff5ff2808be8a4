import { expect, it } from 'vitest'
import { figuresWords } from '../../src/app/view/figuresWords.ts'

it.each([
  ['preliminary', 1, 'preliminary figures'],
  ['preliminary', 2, 'preliminary figures, revision 2'],
  ['final', 3, 'final figures, revision 3'],
  ['amended', 5, 'amended figures, revision 5'],
] as const)('%s figures of revision %i are called by their revision, as no paper is', (status, revision, words) =>
  expect(figuresWords(status, revision)).toBe(words),
)
