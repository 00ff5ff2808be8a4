/** What two passes over one utterance amount to, before any opinion about it. */

import { describe, expect, it } from 'vitest'
import type { Decoded } from '../../../../src/adapters/ear/utterance/recogniser.ts'
import { combined, combinedWhileSpoken, isOtherSpeech } from '../../../../src/adapters/ear/utterance/recognition.ts'

const RATE = 16_000
/** A tone of this peak; the level of its speech is 3 dB below. */
const tone = (peak: number, seconds = 1) =>
  new Float32Array(RATE * seconds).map((_, at) => peak * Math.sin((2 * Math.PI * 200 * at) / RATE))
const LOUD = tone(0.3)
const heard = (text: string, otherSpeech = 0): Decoded => ({
  text,
  words: text === '' ? [] : [{ text, beginMs: 0, endMs: 900 }],
  otherSpeech,
})

describe('two passes that heard', () => {
  it.each([
    ['the same', 'brake set', 'brake set', { text: 'brake set', confidence: 1 }],
    ['the same but for little words', 'closed and locked', 'closed locked', { text: 'closed and locked' }],
    ['a digit by two of its names', 'niner two', 'nine two', { text: 'niner two', confidence: 1 }],
  ])('%s are sure, in the words of the first', (_, first, second, expected) => {
    const found = combined(LOUD, heard(first), heard(second))
    expect(found).toMatchObject(expected)
    expect(found).not.toHaveProperty('doubt')
  })

  it.each([
    ['another word', 'brake set', 'brake released', 0.5],
    ['"not" besides', 'brake set', 'brake not set', 2 / 3],
    ['another digit', 'four two', 'four five', 0.5],
    ['another order', 'four two', 'two four', 0.5],
  ])('%s are unsure: the second only adds doubt, and stands as an alternative', (_, first, second, confidence) => {
    expect(combined(LOUD, heard(first), heard(second))).toEqual({
      ...{ text: first, words: heard(first).words, confidence },
      ...{ doubt: 'unsure', alternatives: [{ text: second }] },
    })
  })

  it.each([
    ['nothing, the second', heard('brake set'), heard('')],
    ['other speech, the second', heard('brake set'), heard('brake set', 0.51)],
    ['other speech, the first', heard('brake set', 0.51), heard('brake set')],
  ])('%s, are unsure with no confidence', (_, first, second) => {
    expect(combined(LOUD, first, second)).toMatchObject({ doubt: 'unsure', confidence: 0 })
  })

  it('nothing, the second, have no alternative to show', () => {
    expect(combined(LOUD, heard('brake set'), heard(''))).not.toHaveProperty('alternatives')
  })

  it('nothing, both of them, heard other speech', () => {
    expect(combined(LOUD, heard(''), heard('brake set', 1))).toMatchObject({ doubt: 'otherSpeech' })
  })

  it('half of it on the path for other speech still heard words', () => {
    expect(isOtherSpeech(heard('brake set', 0.5))).toBe(false)
    expect(isOtherSpeech(heard('brake set', 0.51))).toBe(true)
  })
})

describe('a sound that is bad by itself is in doubt though both passes agree:', () => {
  const of = (pcm: Float32Array) => combined(pcm, heard('brake set'), heard('brake set')).doubt

  it.each([
    ['just loud enough', tone(10 ** (-51.9 / 20)), undefined],
    ['too faint', tone(10 ** (-52.1 / 20)), 'faint'],
    ['a few samples clipped', LOUD.map((sample, at) => (at < 80 ? 1 : sample)), undefined],
    ['more than five in a thousand clipped', LOUD.map((sample, at) => (at < 81 ? 1 : sample)), 'clipped'],
  ] as const)('%s', (_, pcm, doubt) => {
    expect(of(pcm)).toBe(doubt)
  })
})

describe('passes that decoded while it was spoken', () => {
  it('stand where they agree, and where the sound is bad for the whole as well', () => {
    expect(combinedWhileSpoken(LOUD, heard('brake set'), heard('brake set'))).toMatchObject({ text: 'brake set' })
    const faint = tone(0.001)
    expect(combinedWhileSpoken(faint, heard('brake set'), heard('brake set'))).toMatchObject({ doubt: 'faint' })
  })

  it.each([
    ['disagree', heard('brake released')],
    ['found nothing', heard('')],
    ['could not', undefined],
  ])('leave it to the whole where they %s', (_, second) => {
    expect(combinedWhileSpoken(LOUD, heard('brake set'), second)).toBeUndefined()
  })

  it('leave it to the whole where both heard other speech', () => {
    expect(combinedWhileSpoken(LOUD, heard(''), heard(''))).toBeUndefined()
  })
})
