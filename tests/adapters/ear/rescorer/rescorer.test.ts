/** The second model itself, on recordings that nothing was chosen with. */

import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { beforeAll, describe, expect, it } from 'vitest'
import { readWav } from '../../../../src/adapters/ear/audio/wav.ts'
import { nodeRescorer } from '../../../../src/adapters/ear/nodeEar.ts'
import type { Rescorer } from '../../../../src/adapters/ear/rescorer/rescorer.ts'
import { written } from '../../../../src/adapters/ear/rescorer/tokens.ts'
import { SURE_OF_FREE } from '../../../../src/adapters/ear/utterance/rescoring.ts'
import { grammarOf } from '../../../../src/kernel/hearing/grammar.ts'
import { vocabularyOfItems } from '../../../../src/kernel/hearing/vocabulary.ts'
import type { KindSpec } from '../../../../src/kernel/kinds/kind.ts'
import { VALUE_ITEMS, WORD_ITEMS } from '../../../bench/earCases.ts'

const AUDIO = fileURLToPath(new URL('../../../../audio/check/', import.meta.url))

let rescorer: Rescorer
beforeAll(async () => {
  rescorer = await nodeRescorer()
}, 60_000)

async function recording(name: string): Promise<Float32Array> {
  const wav = readWav(await readFile(`${AUDIO}${name}.wav`))
  if ('problem' in wav) throw new Error(wav.problem)
  return wav.pcm
}
const logProbs = async (pcm: Float32Array, texts: readonly string[]) =>
  (await rescorer.rescore(await rescorer.encode(pcm), texts)).map(({ logProb }) => logProb)

const DIGITS = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine']

describe('rescoring', () => {
  it.each([
    ['four-two-seven-one', 'four two seven one'],
    ['zero-eight-nine', 'zero eight nine'],
    ['one-zero-one-three', 'one zero one three'],
  ])('what was said is likelier than each other digit in its place: %s', { timeout: 60_000 }, async (name, said) => {
    const words = said.split(' ')
    const others = words.flatMap((word, at) =>
      DIGITS.filter((digit) => digit !== word).map((digit) => words.toSpliced(at, 1, digit).join(' ')),
    )
    const [right = Number.NEGATIVE_INFINITY, ...wrong] = await logProbs(await recording(name), [said, ...others])
    expect(Math.max(...wrong)).toBeLessThan(right)
  })

  it('a lost "un-" is less likely than what was said', async () => {
    const [unlocked = 0, locked = 0] = await logProbs(await recording('closed-and-unlocked'), [
      'closed and unlocked',
      'closed and locked',
    ])
    expect(locked).toBeLessThan(unlocked)
  })

  it('of one text is the same whatever stands beside it, and at any level', async () => {
    const pcm = await recording('four-two-seven-one')
    const [alone = 0] = await logProbs(pcm, ['four two seven one'])
    const [, among = 0] = await logProbs(pcm, ['four four', 'four two seven one', 'closed and unlocked and set'])
    const [faint = 0] = await logProbs(
      pcm.map((sample) => sample / 8),
      ['four two seven one'],
    )
    // The model counts in steps that its whole input sets, so some of a nat may differ.
    expect(Math.abs(among - alone)).toBeLessThan(1)
    expect(Math.abs(faint - alone)).toBeLessThan(1)
  })
})

describe('what it decodes itself', () => {
  const vocabulary = vocabularyOfItems([...WORD_ITEMS, ...VALUE_ITEMS], [])
  const heard = async (name: string, spec?: KindSpec, alongside: readonly string[] = []) => {
    const sound = await rescorer.encode(await recording(name))
    const grammar = grammarOf({ shapes: spec ? [spec] : [], yesNo: false }, vocabulary)
    const hypotheses = await rescorer.decodeConstrained(sound, grammar, alongside)
    return { sound, hypotheses: [...hypotheses].sort((one, other) => other.logProb - one.logProb) }
  }

  it.each([
    ['four-two-seven-one', { kind: 'digits', length: 4 }, 'four two seven one'],
    ['zero-eight-nine', { kind: 'heading' }, 'zero eight nine'],
    ['one-zero-one-three', { kind: 'altimeter', unit: 'hPa' }, 'one zero one three'],
    ['closed-and-unlocked', undefined, 'closed and unlocked'],
  ] as const)('is what was said: %s', { timeout: 60_000 }, async (name, spec, said) => {
    const { hypotheses } = await heard(name, spec)
    expect(hypotheses[0]?.text).toBe(said)
  })

  it('has priors: the model writes some words more readily than those of a list, though nothing was said', async () => {
    const { hypotheses } = await heard('closed-and-unlocked', undefined, ['brake set tug away', 'closed and left'])
    const prior = (text: string) => hypotheses.find((one) => one.text === text)?.priorLogProb ?? 0
    expect(prior('brake set tug away')).toBeLessThan(prior('closed and left'))
    expect(prior('closed and left')).toBeLessThan(-10)
  })

  it('has the same log probability as when it is asked', { timeout: 60_000 }, async () => {
    const { sound, hypotheses } = await heard('four-two-seven-one', { kind: 'digits', length: 4 })
    const [asked] = await rescorer.rescore(sound, ['four two seven one'])
    expect(Math.abs((hypotheses[0]?.logProb ?? 0) - (asked?.logProb ?? 99))).toBeLessThan(1)
  })
})

describe('what it decodes freely', () => {
  const heard = async (name: string) => (await rescorer.decodeFree(await rescorer.encode(await recording(name))))[0]

  // Of the narration of the check set, in a check voice, and a person.
  it.each([
    ['narration/01', /figures/i],
    ['human/an4_an218-mjgk-b', /stop/i],
  ])('is what was said, and it is sure of it: %s', { timeout: 60_000 }, async (name, said) => {
    const { text, logProb } = (await heard(name)) ?? { text: '', logProb: 0 }
    expect(text).toMatch(said)
    expect(logProb).toBeGreaterThan(SURE_OF_FREE)
  })

  it('is nothing that it is sure of where the words of a list are strange to it', async () => {
    const { text, logProb } = (await heard('departure/brake')) ?? { text: '', logProb: 0 }
    expect(text).toMatch(/[a-z]/i)
    expect(logProb).toBeLessThan(SURE_OF_FREE)
  })
})

describe('a text in writing', () => {
  it('stands in one breath or word by word, with plain digits where the radio has its own names', () => {
    expect(written('niner two', ' ')).toBe('Nine two.')
    expect(written('one five fife', ', ')).toBe('One, five, five.')
  })
})
