import { describe, expect, it } from 'vitest'
import { transcriptOf } from '../../../src/kernel/numbers/tokens.ts'
import { equallyLikely, hypothesesOf } from '../../../src/kernel/response/hypotheses.ts'

it('texts of a recogniser are cut into tokens, with their scores where they have any', () => {
  expect(hypothesesOf({ text: 'on' })).toEqual({ heard: transcriptOf('on') })
  expect(hypothesesOf({ text: 'on', score: 0.9, alternatives: [{ text: 'off', score: 0 }, { text: 'of' }] })).toEqual({
    heard: { ...transcriptOf('on'), score: 0.9 },
    alternatives: [{ ...transcriptOf('off'), score: 0 }, transcriptOf('of')],
  })
})

describe('as likely as the text heard are', () => {
  const likely = (score: number | undefined, ...alternatives: readonly { text: string; score?: number }[]) =>
    equallyLikely(hypothesesOf({ text: 'on', ...(score !== undefined && { score }), alternatives })).map(
      ({ text }) => text,
    )

  it('those of a score that is hardly less, or more', () => {
    const [less, far, more] = [
      { text: 'off', score: 0.7 },
      { text: 'up', score: 0.69 },
      { text: 'left', score: 0.9 },
    ]
    expect(likely(0.8, less, far, more)).toEqual(['off', 'left'])
  })

  it('those without a score, or with nothing as their score', () => {
    expect(likely(0.8, { text: 'off', score: 0 }, { text: 'up' })).toEqual(['off', 'up'])
  })

  it.each([undefined, 0])('those near 1 where the text heard has the score %s', (score) => {
    expect(likely(score, { text: 'off', score: 0.9 }, { text: 'up', score: 0.89 })).toEqual(['off'])
  })

  it('never the same text', () => {
    expect(likely(0.8, { text: 'on', score: 0.8 }, { text: 'on' })).toEqual([])
    expect(equallyLikely(hypothesesOf({ text: 'on' }))).toEqual([])
  })
})
