/** The second model's opinion, limit by limit: on each limit something stands, and a hundredth of a nat beyond it does not. */

import { describe, expect, it } from 'vitest'
import { normalisedScore } from '../../../../src/adapters/ear/utterance/hypothesis.ts'
import type { Decoded } from '../../../../src/adapters/ear/utterance/recogniser.ts'
import type { Recognition } from '../../../../src/adapters/ear/utterance/recognition.ts'
import { rescored, type SoundRescorer } from '../../../../src/adapters/ear/utterance/rescoring.ts'

interface Given {
  /** What the passes heard; one text where they agree. */
  readonly passes: readonly [string, string?]
  /** Log probabilities of what the passes heard, and of what the model decodes itself by the grammar. */
  readonly logProbs: Readonly<Record<string, number>>
  /** Of what it decodes freely. */
  readonly free?: number
}

const wordsOf = (text: string) =>
  text.split(' ').map((word, at) => ({ text: word, beginMs: at * 300, endMs: at * 300 + 250 }))
const decoded = (text: string): Decoded => ({ text, words: wordsOf(text), otherSpeech: 0 })
const NEVER = new AbortController().signal

interface Circumstances {
  readonly signal?: AbortSignal
  readonly doubt?: Recognition['doubt']
  readonly isLost?: boolean
}

async function opinion({ passes: [first, second = first], logProbs, free = -50 }: Given, how: Circumstances = {}) {
  const { signal = NEVER, isLost = false, doubt = first === second ? undefined : 'unsure' } = how
  const asked: string[] = []
  const hypothesis = (text: string) => ({ text, logProb: logProbs[text] ?? -99, priorLogProb: 0 })
  const model: SoundRescorer = {
    async rescore(texts) {
      asked.push('rescore')
      return isLost ? undefined : texts.map(hypothesis)
    },
    async decodeConstrained(alongside) {
      asked.push('constrained')
      return [...new Set([...alongside, ...Object.keys(logProbs)])].map(hypothesis)
    },
    async decodeFree() {
      asked.push('free')
      return [{ text: 'Stop.', logProb: free, priorLogProb: 0 }]
    },
    phones: async () => undefined,
  }
  const found: Recognition = { text: first, words: [], confidence: 1, ...(doubt && { doubt }) }
  return { said: await rescored(found, [decoded(first), decoded(second)], model, signal), asked }
}

type Outcome = `accepts ${string}` | `doubts ${string}` | 'other speech'
const outcome = ({ text, doubt }: Recognition): Outcome =>
  doubt === 'otherSpeech' ? 'other speech' : doubt ? `doubts ${text}` : `accepts ${text}`

interface Limit {
  readonly limit: string
  readonly given: Given
  readonly at: Outcome
  /** What is made a hundredth of a nat likelier (+) or less likely (-) to be beyond the limit. */
  readonly beyond: readonly ['+' | '-', string]
  readonly past: Outcome
}

const LIMITS: readonly Limit[] = [
  {
    limit: 'a number of two words fits down to -13',
    given: { passes: ['four two'], logProbs: { 'four two': -13 } },
    at: 'accepts four two',
    beyond: ['-', 'four two'],
    past: 'doubts four two',
  },
  {
    limit: 'a number of four words fits down to -16',
    given: { passes: ['four two seven one'], logProbs: { 'four two seven one': -16 } },
    at: 'accepts four two seven one',
    beyond: ['-', 'four two seven one'],
    past: 'doubts four two seven one',
  },
  {
    limit: 'words that one pass heard fit down to -13, two of them',
    given: { passes: ['brake set', 'brake released'], logProbs: { 'brake set': -13, 'brake released': -40 } },
    at: 'accepts brake set',
    beyond: ['-', 'brake set'],
    past: 'doubts brake set',
  },
  {
    limit: 'words on which both passes agree need only fit down to -20, two of them; below, it was other speech',
    given: { passes: ['brake set'], logProbs: { 'brake set': -20 } },
    at: 'accepts brake set',
    beyond: ['-', 'brake set'],
    past: 'other speech',
  },
  {
    limit: 'a single such word down to -17.5',
    given: { passes: ['armed'], logProbs: { armed: -17.5 } },
    at: 'accepts armed',
    beyond: ['-', 'armed'],
    past: 'other speech',
  },
  {
    limit: 'a number is in doubt down to -20, two words; below, it was other speech',
    given: { passes: ['four two'], logProbs: { 'four two': -20 } },
    at: 'doubts four two',
    beyond: ['-', 'four two'],
    past: 'other speech',
  },
  {
    limit: 'what one pass heard must lead what the other heard by 3',
    given: { passes: ['brake set', 'brake released'], logProbs: { 'brake set': -5, 'brake released': -8 } },
    at: 'accepts brake set',
    beyond: ['+', 'brake released'],
    past: 'doubts brake set',
  },
  {
    limit: 'the second pass as well as the first',
    given: { passes: ['brake set', 'brake released'], logProbs: { 'brake set': -8, 'brake released': -5 } },
    at: 'accepts brake released',
    beyond: ['+', 'brake set'],
    past: 'doubts brake released',
  },
  {
    limit: 'what both passes heard may be 3 behind what the model decodes itself',
    given: { passes: ['brake set'], logProbs: { 'brake set': -9, 'doors closed': -6 } },
    at: 'accepts brake set',
    beyond: ['+', 'doors closed'],
    past: 'doubts brake set',
  },
  {
    limit: 'what one pass heard may not be behind it at all',
    given: {
      passes: ['brake set', 'brake released'],
      logProbs: { 'brake set': -6, 'brake released': -30, 'doors closed': -6 },
    },
    at: 'accepts brake set',
    beyond: ['+', 'doors closed'],
    past: 'doubts brake set',
  },
  {
    limit: 'a number that no pass heard as a whole must fit down to -10, two words',
    given: { passes: ['four two'], logProbs: { 'four two': -16, 'four five': -10 } },
    at: 'accepts four five',
    beyond: ['-', 'four five'],
    past: 'doubts four two',
  },
  {
    limit: 'and down to -11 if it has three',
    given: { passes: ['four two six'], logProbs: { 'four two six': -18, 'four five six': -11 } },
    at: 'accepts four five six',
    beyond: ['-', 'four five six'],
    past: 'doubts four two six',
  },
  {
    limit: 'such a number must lead all others by 2',
    given: { passes: ['four two'], logProbs: { 'four two': -16, 'four five': -5, 'four nine': -7 } },
    at: 'accepts four five',
    beyond: ['+', 'four nine'],
    past: 'doubts four two',
  },
]

const shifted = (given: Given, [sign, text]: Limit['beyond']): Given => ({
  ...given,
  logProbs: { ...given.logProbs, [text]: (given.logProbs[text] ?? 0) + (sign === '+' ? 0.01 : -0.01) },
})

describe('limits', () => {
  it.each(LIMITS)('$limit', async ({ given, at, beyond, past }) => {
    const [onIt, beyondIt] = [await opinion(given), await opinion(shifted(given, beyond))]
    expect([onIt, beyondIt].map(({ said }) => said && outcome(said))).toEqual([at, past])
  })

  it.each([
    ['four five six', 'four two two', 'accepts four five six'],
    ['four five six seven', 'four two two two', 'doubts four two two two'],
  ] as const)('"%s" shares a third of its words with "%s", or not: %s', async (own, heard, expected) => {
    const { said } = await opinion({ passes: [heard], logProbs: { [own]: -4, [heard]: -19 } })
    expect(said && outcome(said)).toBe(expected)
  })

  it.each([
    [['armed'], { armed: -4.2 }],
    [['brake set'], { 'brake set': -5.4 }],
  ] as const)(
    'the model decodes nothing itself where %j fits clearly, by the number of its words',
    async (passes, at) => {
      const given: Given = { passes: [...passes], logProbs: at }
      expect((await opinion(given)).asked).toEqual(['rescore'])
      expect((await opinion(shifted(given, ['-', passes[0]]))).asked).toEqual(['rescore', 'constrained'])
    },
  )

  it.each([
    [-1.5, 'doubts brake set'],
    [-1.51, 'accepts brake set'],
  ] as const)(
    'words that fit badly fall to what it is sure of where anything may be said: %d',
    async (free, expected) => {
      const { said, asked } = await opinion({ passes: ['brake set'], logProbs: { 'brake set': -13.01 }, free })
      expect(said && outcome(said)).toBe(expected)
      expect(asked).toContain('free')
    },
  )

  it('it is not asked for that where the words fit', async () => {
    const { asked } = await opinion({ passes: ['brake set'], logProbs: { 'brake set': -13 }, free: -0.1 })
    expect(asked).not.toContain('free')
  })
})

it.each([
  ['long texts', -13, -20, -5],
  ['texts that were not asked about', -13, 0, -13],
])('%s are ranked by what the sound adds to two fifths of their prior', (_, logProb, priorLogProb, score) => {
  expect(normalisedScore({ text: 'brake set', logProb, priorLogProb })).toBe(score)
})

describe('words with their times', () => {
  it('are those of the pass that is confirmed', async () => {
    const logProbs = { 'brake set': -30, 'brake released': -4 }
    const { said } = await opinion({ passes: ['brake set', 'brake released'], logProbs })
    expect(said?.words).toEqual(wordsOf('brake released'))
  })

  it('are not known of a number that no pass heard as a whole', async () => {
    const { said } = await opinion({ passes: ['four two'], logProbs: { 'four two': -16, 'four five': -4 } })
    expect(said).toMatchObject({ text: 'four five', words: [] })
  })
})

it('a number that only one of two passes heard in part is accepted as well', async () => {
  const logProbs = { 'four two': -16, 'nine nine': -19, 'four five': -4 }
  const { said } = await opinion({ passes: ['four two', 'nine nine'], logProbs })
  expect(said && outcome(said)).toBe('accepts four five')
})

it('the model decodes for itself where only one of two passes fits clearly', async () => {
  const { asked } = await opinion({ passes: ['brake set'], logProbs: { 'brake set': -5 } })
  expect(asked).toEqual(['rescore'])
  const found: Recognition = { text: 'brake set', words: [], confidence: 1 }
  const texts: string[][] = []
  const model: SoundRescorer = {
    rescore: async (of) => of.map((text) => ({ text, logProb: text === 'brake set' ? -1 : -9, priorLogProb: 0 })),
    async decodeConstrained(alongside) {
      texts.push([...alongside])
      return alongside.map((text) => ({ text, logProb: text === 'brake set' ? -1 : -9, priorLogProb: 0 }))
    },
    decodeFree: async () => undefined,
    phones: async () => undefined,
  }
  const other: Decoded = { ...decoded('doors closed'), otherSpeech: 1 }
  await rescored(found, [decoded('brake set'), decoded('brake the set'), other], model, NEVER)
  // What was other speech to a pass is no text to rescore.
  expect(texts).toEqual([['brake set', 'brake the set']])
})

describe('the second model never', () => {
  it('adds words alone: one that no pass heard may be "not"', async () => {
    const { said } = await opinion({ passes: ['brake set'], logProbs: { 'brake set': -14, 'brake not set': -1 } })
    expect(said).toMatchObject({ text: 'brake set', doubt: 'unsure', alternatives: [{ text: 'brake not set' }] })
  })

  it('takes a number of which no pass heard anything', async () => {
    const { said } = await opinion({ passes: ['four two'], logProbs: { 'four two': -9, 'nine five': -1 } })
    expect(said).toMatchObject({ text: 'four two', doubt: 'unsure', alternatives: [{ text: 'nine five' }] })
  })

  it.each(['faint', 'clipped', 'otherSpeech'] as const)('lifts a doubt about the sound itself: %s', async (doubt) => {
    const { said, asked } = await opinion({ passes: ['brake set'], logProbs: { 'brake set': -1 } }, { doubt })
    expect(said).toMatchObject({ text: 'brake set', doubt })
    expect(asked).toEqual([])
  })

  it('works on where speech went on, and nobody asks any more', async () => {
    const given = { passes: ['brake set'], logProbs: { 'brake set': -16 }, free: -0.1 } as const
    const { asked } = await opinion(given, { signal: AbortSignal.abort() })
    expect(asked).toEqual(['rescore'])
  })
})

it('a second model that is lost has no opinion', async () => {
  const { said } = await opinion({ passes: ['brake set'], logProbs: {} }, { isLost: true })
  expect(said).toBeUndefined()
})
