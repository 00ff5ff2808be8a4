/** The weigher with its real model, on recordings that nothing was chosen with. */

import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { beforeAll, describe, expect, it } from 'vitest'
import { readWav } from '../../../../src/adapters/ear/audio/wav.ts'
import { nodeWeigher } from '../../../../src/adapters/ear/nodeEar.ts'
import type { Weigher } from '../../../../src/adapters/ear/rescorer/rescorer.ts'
import { written } from '../../../../src/adapters/ear/rescorer/tokens.ts'
import { SURE } from '../../../../src/adapters/ear/utterance/rescoring.ts'
import { grammarOf } from '../../../../src/kernel/hearing/grammar.ts'
import { vocabularyOfItems } from '../../../../src/kernel/hearing/vocabulary.ts'
import type { KindSpec } from '../../../../src/kernel/kinds/kind.ts'
import { VALUE_ITEMS, WORD_ITEMS } from '../../../bench/earCases.ts'

const AUDIO = fileURLToPath(new URL('../../../../audio/check/', import.meta.url))

let weigher: Weigher
beforeAll(async () => {
  weigher = await nodeWeigher()
}, 60_000)

async function recording(name: string): Promise<Float32Array> {
  const wav = readWav(await readFile(`${AUDIO}${name}.wav`))
  if ('problem' in wav) throw new Error(wav.problem)
  return wav.pcm
}
const weights = async (pcm: Float32Array, texts: readonly string[]) =>
  (await weigher.weigh(await weigher.take(pcm), texts)).map(({ weight }) => weight)

const DIGITS = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine']

describe('weighing', () => {
  it.each([
    ['four-two-seven-one', 'four two seven one'],
    ['zero-eight-nine', 'zero eight nine'],
    ['one-zero-one-three', 'one zero one three'],
  ])('what was said outweighs each other digit in its place: %s', { timeout: 60_000 }, async (name, said) => {
    const words = said.split(' ')
    const others = words.flatMap((word, at) =>
      DIGITS.filter((digit) => digit !== word).map((digit) => words.toSpliced(at, 1, digit).join(' ')),
    )
    const [right = Number.NEGATIVE_INFINITY, ...wrong] = await weights(await recording(name), [said, ...others])
    expect(Math.max(...wrong)).toBeLessThan(right)
  })

  it('a lost "un-" weighs less than what was said', async () => {
    const [unlocked = 0, locked = 0] = await weights(await recording('closed-and-unlocked'), [
      'closed and unlocked',
      'closed and locked',
    ])
    expect(locked).toBeLessThan(unlocked)
  })

  it('of one text is the same whatever stands beside it, and at any level', async () => {
    const pcm = await recording('four-two-seven-one')
    const [alone = 0] = await weights(pcm, ['four two seven one'])
    const [, among = 0] = await weights(pcm, ['four four', 'four two seven one', 'closed and unlocked and set'])
    const [faint = 0] = await weights(
      pcm.map((sample) => sample / 8),
      ['four two seven one'],
    )
    // The model counts in steps that its whole input sets, so some of a nat may differ.
    expect(Math.abs(among - alone)).toBeLessThan(1)
    expect(Math.abs(faint - alone)).toBeLessThan(1)
  })
})

describe('what it hears itself', () => {
  const vocabulary = vocabularyOfItems([...WORD_ITEMS, ...VALUE_ITEMS], [])
  const heard = async (name: string, spec?: KindSpec, beside: readonly string[] = []) => {
    const taken = await weigher.take(await recording(name))
    const grammar = grammarOf({ shapes: spec ? [spec] : [], yesNo: false }, vocabulary)
    const sayings = await weigher.hear(taken, grammar, beside)
    return { taken, sayings: [...sayings].sort((one, other) => other.weight - one.weight) }
  }

  it.each([
    ['four-two-seven-one', { kind: 'digits', length: 4 }, 'four two seven one'],
    ['zero-eight-nine', { kind: 'heading' }, 'zero eight nine'],
    ['one-zero-one-three', { kind: 'altimeter', unit: 'hPa' }, 'one zero one three'],
    ['closed-and-unlocked', undefined, 'closed and unlocked'],
  ] as const)('is what was said: %s', { timeout: 60_000 }, async (name, spec, said) => {
    const { sayings } = await heard(name, spec)
    expect(sayings[0]?.text).toBe(said)
  })

  it('has habits: what is written though nothing was said: everyday words more readily than those of a list', async () => {
    const { sayings } = await heard('closed-and-unlocked', undefined, ['brake set tug away', 'closed and left'])
    const habit = (text: string) => sayings.find((saying) => saying.text === text)?.habit ?? 0
    expect(habit('brake set tug away')).toBeLessThan(habit('closed and left'))
    expect(habit('closed and left')).toBeLessThan(-10)
  })

  it('weighs what it weighs when it is asked', { timeout: 60_000 }, async () => {
    const { taken, sayings } = await heard('four-two-seven-one', { kind: 'digits', length: 4 })
    const [asked] = await weigher.weigh(taken, ['four two seven one'])
    expect(Math.abs((sayings[0]?.weight ?? 0) - (asked?.weight ?? 99))).toBeLessThan(1)
  })
})

describe('what it hears where anything may be said', () => {
  const heard = async (name: string) => (await weigher.hearAnything(await weigher.take(await recording(name))))[0]

  // Of the narration of the check set, in a check voice, and a person.
  it.each([
    ['narration/01', /figures/i],
    ['human/an4_an218-mjgk-b', /stop/i],
  ])('is what was said, and it is sure of it: %s', { timeout: 60_000 }, async (name, said) => {
    const { text, weight } = (await heard(name)) ?? { text: '', weight: 0 }
    expect(text).toMatch(said)
    expect(weight).toBeGreaterThan(SURE)
  })

  it('is something that it is not sure of where the words of a list are strange to it', async () => {
    const { text, weight } = (await heard('departure/brake')) ?? { text: '', weight: 0 }
    expect(text).toMatch(/[a-z]/i)
    expect(weight).toBeLessThan(SURE)
  })
})

describe('a saying in writing', () => {
  it('stands in one breath or word by word, with plain digits where the radio has its own names', () => {
    expect(written('niner two', ' ')).toBe('Nine two.')
    expect(written('one five fife', ', ')).toBe('One, five, five.')
  })
})
