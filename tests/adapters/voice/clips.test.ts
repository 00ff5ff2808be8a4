import { describe, expect, test } from 'vitest'
import { type ClipIndex, clipsFor, plainWords, sentencesOf } from '../../../src/adapters/voice/clips.ts'

/** Each text is a clip; its place in the list is where it begins. */
const indexOf = (...texts: string[]): ClipIndex =>
  Object.fromEntries(texts.map((text, at) => [text, [at, 100] as const]))
const said = (text: string, index: ClipIndex) =>
  clipsFor(text, index)?.map(({ beginMs }) => Object.entries(index).find(([, [begin]]) => begin === beginMs)?.[0])

describe('a text in plain words', () => {
  test.each([
    ['Takeoff trim?', 'takeoff trim'],
    ['I heard, five six up. Takeoff trim?', 'i heard five six up takeoff trim'],
    ['pass, parking brake, instructor’s word', "pass parking brake instructor's word"],
    ['5.2 up', 'five point two up'],
    ['-5 degrees', 'minus five degrees'],
    ['10 items left', 'ten items left'],
    ['128', 'one two eight'],
    ['29.92', 'two nine point nine two'],
    ['0730', 'zero seven three zero'],
    ['V1', 'v one'],
    ['set 1013.', 'set one zero one three'],
  ])('%s is said "%s"', (text, words) => {
    expect(plainWords(text).join(' ')).toBe(words)
  })
})

describe('sentences of a text', () => {
  const index = indexOf('takeoff trim', 'i heard', 'five', 'up')

  test('a sentence that has all its clips keeps them, one that has not is said whole by the synthesiser', () => {
    const [heard, trim] = sentencesOf('I heard, 5.2 UP. Takeoff trim?', index)
    expect(heard).toBe('i heard, five point two up')
    expect(trim).toMatchObject([{ beginMs: 0 }])
  })

  test.each([
    ['QNH 1013, V1 xylophone', 'qnh one zero one three, v one xylophone'],
    ['Canopy (jettison handle): pinned!', 'canopy jettison handle, pinned'],
  ])('the synthesiser is given %s in plain words, as the clips were: "%s"', (text, words) => {
    expect(sentencesOf(text, index)).toEqual([words])
  })

  test('nothing to say has none', () => {
    expect(sentencesOf(' ... ', index)).toEqual([])
  })
})

describe('clips of a text', () => {
  test('the longest phrase that is recorded is taken whole', () => {
    const index = indexOf('say', 'again', 'say again', 'takeoff', 'trim', 'takeoff trim')
    expect(said('Say again, takeoff trim.', index)).toEqual(['say again', 'takeoff trim'])
  })

  test('a long phrase at the start does not keep the rest from being said', () => {
    expect(said('is open again', indexOf('is open', 'is', 'open again'))).toEqual(['is', 'open again'])
  })

  test('a phrase does not reach across the end of a sentence', () => {
    const index = indexOf('up', 'trim', 'up trim')
    expect(said('Up. Trim?', index)).toEqual(['up', 'trim'])
    expect(said('Up trim?', index)).toEqual(['up trim'])
  })

  test('a word without a clip leaves the whole text unsaid, above all within a number', () => {
    const index = indexOf('i heard', 'five', 'point', 'up')
    expect(clipsFor('I heard, five point two up.', index)).toBeUndefined()
    expect(clipsFor('I heard, 50 %.', indexOf('i heard', 'fifty'))).toBeUndefined()
  })

  test('words of the language itself are no clips', () => {
    expect(clipsFor('constructor', {})).toBeUndefined()
  })

  test('nothing to say has no clips', () => {
    expect(clipsFor(' ... ', indexOf('up'))).toBeUndefined()
  })

  test('a sentence is followed by a longer pause than a comma, and a comma than a word', () => {
    const clips = clipsFor('Up, up up. Up.', indexOf('up')) ?? []
    const [comma = 0, word = 0, sentence = 0] = clips.map(({ pauseMs }) => pauseMs)
    expect(clips).toHaveLength(4)
    expect(sentence).toBeGreaterThan(comma)
    expect(comma).toBeGreaterThan(word)
  })
})
