/** What the phones may say beside the passes: hear a short word, confirm it, or doubt another; never overrule. */

import { describe, expect, it } from 'vitest'
import type { SoundedText } from '../../../../src/adapters/ear/utterance/phoneBeam.ts'
import type { Decoded } from '../../../../src/adapters/ear/utterance/recogniser.ts'
import type { Recognition } from '../../../../src/adapters/ear/utterance/recognition.ts'
import {
  isForSounding,
  isOfShortWords,
  LIMITS,
  sounded,
  soundedTwice,
} from '../../../../src/adapters/ear/utterance/sounding.ts'

const decoded = (text: string): Decoded => ({
  text,
  words: text === '' ? [] : [{ text, beginMs: 0, endMs: 300 }],
  otherSpeech: text === '' ? 1 : 0,
})
const NOTHING: Recognition = { text: '', words: [], confidence: 0, doubt: 'otherSpeech' }
const doubted = (text: string): Recognition => ({ text, words: [], confidence: 0.5, doubt: 'unsure' })

const ROUNDING = 1e-9
/** The first of these texts fits this well, in nats a phone, and leads the second by so many nats. */
function texts(best: string, other: string, { fit, lead }: { fit: number; lead: number }): readonly SoundedText[] {
  const logProb = fit * 3 + ROUNDING
  return [
    { text: best, logProb, phoneCount: 2 },
    { text: other, logProb: logProb - lead - ROUNDING, phoneCount: 2 },
  ]
}
const outcome = ({ text, doubt }: Recognition) => (doubt ? `${doubt} ${text}` : `accepts ${text}`)
const less = ({ fit, lead }: { fit: number; lead: number }) => [
  { fit: fit - 0.01, lead },
  { fit, lead: lead - 0.01 },
]

describe('what the phones hear', () => {
  const { byItself, withAPass, against } = LIMITS

  it('is accepted where no pass heard anything, and it fits and leads', () => {
    const passes = [decoded(''), decoded('')]
    expect(outcome(sounded(NOTHING, passes, texts('off', 'on', byItself)))).toBe('accepts off')
    for (const limit of less(byItself)) {
      expect(sounded(NOTHING, passes, texts('off', 'on', limit))).toEqual(NOTHING)
    }
  })

  it('needs less where a pass heard the same', () => {
    const passes = [decoded('off'), decoded('')]
    const said = sounded(doubted('off'), passes, texts('off', 'on', withAPass))
    expect(outcome(said)).toBe('accepts off')
    expect(said.words).toEqual(passes[0]?.words)
    for (const limit of less(withAPass)) {
      expect(outcome(sounded(doubted('off'), passes, texts('off', 'on', limit)))).toBe('unsure off')
    }
  })

  it('never overrules two passes that agree, however clear', () => {
    const clear = texts('off', 'on', { fit: 0, lead: 50 })
    expect(outcome(sounded(doubted('on'), [decoded('on'), decoded('on')], clear))).toBe('unsure on')
    // One that agreed at once stands for both.
    expect(outcome(sounded(doubted('on'), [decoded('on')], clear))).toBe('unsure on')
    const third: Recognition = { ...doubted('on'), alternatives: [{ text: 'open' }] }
    expect(outcome(sounded(third, [decoded('on'), decoded('on')], clear))).toBe('unsure on')
  })

  it('stands against two that agree where the text decoder hears the same, or nothing of theirs', () => {
    const passes = [decoded('pass'), decoded('pass')]
    const other: Recognition = { ...doubted('pass'), alternatives: [{ text: 'off' }] }
    const none: Recognition = { ...doubted('pass'), doubt: 'otherSpeech' }
    for (const said of [other, none]) {
      expect(outcome(sounded(said, passes, texts('off', 'on', LIMITS.againstPasses)))).toBe('accepts off')
      for (const limit of less(LIMITS.againstPasses)) {
        expect(sounded(said, passes, texts('off', 'on', limit))).toBe(said)
      }
    }
  })

  it('needs as much as by itself in a sound that is cut off, and never stands against both passes there', () => {
    const clipped: Recognition = { ...doubted('off'), doubt: 'clipped' }
    const passes = [decoded('off'), decoded('off')]
    expect(outcome(sounded(clipped, passes, texts('off', 'on', byItself)))).toBe('accepts off')
    expect(sounded(clipped, passes, texts('off', 'on', withAPass))).toBe(clipped)
    expect(sounded(clipped, passes, texts('on', 'off', { fit: 0, lead: 50 }))).toBe(clipped)
  })

  it('stands against an agreement on what answers nothing', () => {
    const clear = texts('off', 'on', byItself)
    expect(outcome(sounded(doubted('both'), [decoded('both'), decoded('both')], clear))).toBe('accepts off')
    expect(outcome(sounded(doubted('both on'), [decoded('both on')], clear))).toBe('unsure both on')
  })

  it('stands against one pass that heard something else', () => {
    const clear = texts('off', 'on', byItself)
    expect(outcome(sounded(doubted('on'), [decoded('on'), decoded('')], clear))).toBe('accepts off')
  })

  it('makes a doubt of what was accepted where it hears something else clearly', () => {
    const accepted: Recognition = { text: 'on', words: [], confidence: 1 }
    expect(sounded(accepted, [decoded('on')], texts('off', 'on', against))).toMatchObject({
      ...{ text: 'on', doubt: 'unsure', alternatives: [{ text: 'off' }] },
    })
    for (const limit of less(against)) {
      expect(sounded(accepted, [decoded('on')], texts('off', 'on', limit))).toBe(accepted)
    }
    expect(sounded(accepted, [decoded('on')], texts('on', 'off', against))).toBe(accepted)
  })

  it('leads only over what says something else', () => {
    const [best] = texts('off', 'on', byItself)
    const same = best && [best, { ...best, text: 'the off' }]
    expect(outcome(sounded(NOTHING, [decoded(''), decoded('')], same ?? []))).toBe('accepts off')
  })

  it('is nothing where no text was found', () => {
    expect(sounded(NOTHING, [decoded(''), decoded('')], [])).toBe(NOTHING)
  })
})

describe('a second look, at the sound with less noise', () => {
  const { byItself, withAPass } = LIMITS
  const passes = [decoded(''), decoded('')]
  const clear = async () => texts('up', 'down', byItself)

  it('hears clearly what the first hears nearly', async () => {
    const nearly = texts('up', 'down', withAPass)
    expect(outcome(await soundedTwice(NOTHING, passes, nearly, clear))).toBe('accepts up')
    const unclear = async () => texts('up', 'down', withAPass)
    expect(await soundedTwice(NOTHING, passes, nearly, unclear)).toBe(NOTHING)
  })

  it('is nothing against a first that hears something else, or hardly anything', async () => {
    expect(await soundedTwice(NOTHING, passes, texts('on', 'up', withAPass), clear)).toBe(NOTHING)
    for (const limit of less(withAPass)) {
      expect(await soundedTwice(NOTHING, passes, texts('up', 'down', limit), clear)).toBe(NOTHING)
    }
  })

  it('is not taken where the first is clear, or nothing was in doubt', async () => {
    const never = () => Promise.reject(new Error('looked again'))
    expect(outcome(await soundedTwice(NOTHING, passes, await clear(), never))).toBe('accepts up')
    const accepted: Recognition = { text: 'up', words: [], confidence: 1 }
    expect(await soundedTwice(accepted, passes, texts('up', 'down', withAPass), never)).toBe(accepted)
  })
})

describe('the phones are asked', () => {
  const words = { shapes: [], yesNo: false }
  const second = 16_000

  it('at an item of words, whatever its passes heard', () => {
    expect(isOfShortWords(words, second)).toBe(true)
    expect(isForSounding(NOTHING)).toBe(true)
    expect(isForSounding({ text: 'on', words: [], confidence: 1 })).toBe(true)
    expect(isForSounding({ ...NOTHING, doubt: 'clipped' })).toBe(true)
  })

  it('not about values, calls, a long speech, or what is faint', () => {
    expect(isOfShortWords({ ...words, shapes: [{ kind: 'digits', length: 4 }] }, second)).toBe(false)
    const talk = { parts: [], phrases: [], words: [], others: [] }
    expect(isOfShortWords({ ...words, talk }, second)).toBe(false)
    expect(isOfShortWords(words, 3 * second)).toBe(true)
    expect(isOfShortWords(words, 3 * second + 1)).toBe(false)
    expect(isForSounding({ ...NOTHING, doubt: 'faint' })).toBe(false)
  })
})
