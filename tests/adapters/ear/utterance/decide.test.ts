/** In which order passes and opinions are asked about one utterance, and whose answer counts. */

import { describe, expect, it } from 'vitest'
import { decideUtterance } from '../../../../src/adapters/ear/utterance/decide.ts'
import { furtherPasses } from '../../../../src/adapters/ear/utterance/furtherPasses.ts'
import type { Opinion } from '../../../../src/adapters/ear/utterance/opinion.ts'
import type { Decoded, Passes, Recogniser, Task } from '../../../../src/adapters/ear/utterance/recogniser.ts'
import type { Recognition } from '../../../../src/adapters/ear/utterance/recognition.ts'
import type { UtteranceSound } from '../../../../src/adapters/ear/utterance/utteranceFinder.ts'

const sound = (level: number) => new Float32Array(16_000).fill(level)
const UTTERANCE: UtteranceSound = { raw: sound(0.3), clean: sound(0.2), partlyDenoised: sound(0.25) }
const TASK: Task = { hearable: { shapes: [], yesNo: false }, grammar: { start: 'heard', rules: [] } }
const heard = (text: string): Decoded => ({ text, words: [], otherSpeech: 0 })
const SET: Recognition = { text: 'brake set', words: [], confidence: 1 }

interface Heard {
  /** While it was spoken, and of the whole. */
  readonly followed?: readonly [string | undefined, string | undefined]
  readonly whole?: readonly [string, string]
  readonly further?: readonly [string, string]
}

function passesThat({ followed = [undefined, undefined], whole = ['', ''], further = ['', ''] }: Heard) {
  const asked: string[] = []
  const note = <T>(what: string, answer: T): T => {
    asked.push(what)
    return answer
  }
  const pass = (name: string, which: 0 | 1): Recogniser => {
    const spoken = followed[which]
    return {
      expect() {},
      begin() {},
      push() {},
      end: () => note(`${name} end`, spoken === undefined ? undefined : heard(spoken)),
      decode: (pcm) => note(`${name} whole ${pcm[0]?.toFixed(2)}`, heard(whole[which])),
      decodeOtherwise: (pcm) => note(`${name} otherwise ${pcm[0]?.toFixed(2)}`, heard(further[which])),
    }
  }
  const passes: Passes = { first: pass('first', 0), second: pass('second', 1) }
  return { passes, asked, note }
}

const decide = (passes: Passes, opinions: readonly Opinion[], signal = new AbortController().signal) =>
  decideUtterance(UTTERANCE, TASK, { passes, opinions }, signal)

describe('an utterance that both passes followed', () => {
  it('is decided by that where they agree; the second is asked first, for it works in another thread', async () => {
    const { passes, asked } = passesThat({ followed: ['brake set', 'brake set'] })
    const { first, recognition } = decide(passes, [])
    expect(first.text).toBe('brake set')
    expect(await recognition).toEqual(SET)
    expect(asked).toEqual(['second end', 'first end'])
  })

  it('is decoded anew as a whole, without its noise, where they do not', async () => {
    const { passes, asked } = passesThat({ followed: ['brake set', 'brake on'], whole: ['brake set', 'brake set'] })
    expect(await decide(passes, []).recognition).toEqual(SET)
    expect(asked.slice(2)).toEqual(['second whole 0.20', 'first whole 0.20'])
  })

  it('is left in doubt where speech went on meanwhile: what is said now is not disturbed', async () => {
    const { passes, asked } = passesThat({ followed: ['brake set', 'brake on'] })
    const wentOn = new AbortController()
    const { recognition } = decide(passes, [], wentOn.signal)
    wentOn.abort()
    expect(await recognition).toMatchObject({ text: 'brake set', doubt: 'unsure', confidence: 0 })
    expect(asked).toHaveLength(2)
  })
})

it('an utterance that nobody followed is decoded as a whole at once, and its first words are known at once', async () => {
  const { passes, asked } = passesThat({ whole: ['brake set', 'brake set'] })
  const { first, recognition } = decide(passes, [])
  expect(first.text).toBe('brake set')
  expect(asked).toEqual(['second end', 'first end', 'second whole 0.20', 'first whole 0.20'])
  expect(await recognition).toEqual(SET)
})

describe('opinions', () => {
  const opinion =
    (name: string, answer: Recognition | undefined, note: (what: string, answer: undefined) => void): Opinion =>
    ({ partlyDenoised }) => {
      note(`${name} begins with ${partlyDenoised[0]}`, undefined)
      return async (_found, passes) => {
        note(`${name} on ${passes.map(({ text }) => text)}`, undefined)
        return answer
      }
    }

  it('begin with the sound before the passes are asked; the first that has something to say decides', async () => {
    const { passes, asked, note } = passesThat({ followed: ['brake set', 'brake set'] })
    const doubted: Recognition = { ...SET, doubt: 'unsure' }
    const opinions = [
      opinion('one', undefined, note),
      () => undefined,
      opinion('two', doubted, note),
      opinion('three', SET, note),
    ]
    expect(await decide(passes, opinions).recognition).toEqual(doubted)
    expect(asked.slice(0, 3)).toEqual(['one begins with 0.25', 'two begins with 0.25', 'three begins with 0.25'])
    expect(asked.slice(5)).toEqual(['one on brake set', 'two on brake set'])
  })

  it('are asked about both passes where the whole had to be decoded', async () => {
    const { passes, asked, note } = passesThat({ whole: ['brake set', 'brake on'] })
    await decide(passes, [opinion('one', undefined, note)]).recognition
    expect(asked.at(-1)).toBe('one on brake set,brake on')
  })
})

describe('further passes, over a sound with some of its noise left', () => {
  const near = { whole: ['brake set', 'brake on'] } as const
  const of = async (heardBy: Heard, signal?: AbortSignal) => {
    const { passes, asked } = passesThat(heardBy)
    const found = await decide(passes, [furtherPasses(passes)], signal).recognition
    return { found, asked: asked.filter((what) => what.includes('otherwise')) }
  }

  it('lift a doubt where both hear the words of the first', async () => {
    const { found, asked } = await of({ ...near, further: ['brake set', 'brake set'] })
    expect(found).toEqual({ ...SET, confidence: 0.5 })
    expect(asked).toEqual(['second otherwise 0.25', 'first otherwise 0.25'])
  })

  it.each([
    ['brake on', 'brake set'],
    ['brake set', 'brake on'],
    ['brake set', ''],
  ] as const)('do not where one hears something else: "%s", "%s"', async (...further) => {
    expect((await of({ ...near, further })).found).toMatchObject({ text: 'brake set', doubt: 'unsure' })
  })

  it.each([
    ['agree', { whole: ['brake set', 'brake set'] }],
    ['are far apart', { whole: ['brake set', 'doors closed'] }],
    ['differ by a digit more or less', { whole: ['four two', 'four two two'] }],
    ['found nothing, one of them', { whole: ['brake set', ''] }],
  ] as const)('are not taken where the passes %s', async (_, heardBy) => {
    expect((await of({ ...heardBy, further: ['brake set', 'brake set'] })).asked).toEqual([])
  })

  it('are not taken where speech went on', async () => {
    expect((await of(near, AbortSignal.abort())).asked).toEqual([])
  })
})
