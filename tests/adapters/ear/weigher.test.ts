/** The weigher with its real model, on recordings that nothing was chosen with. */

import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { beforeAll, describe, expect, it } from 'vitest'
import { nodeWeigher } from '../../../src/adapters/ear/nodeEar.ts'
import { readWav } from '../../../src/adapters/ear/wav.ts'
import { type Weigher, written } from '../../../src/adapters/ear/weigher.ts'

const AUDIO = fileURLToPath(new URL('../../../audio/check/', import.meta.url))

let weigher: Weigher
beforeAll(async () => {
  weigher = await nodeWeigher()
}, 60_000)

async function recording(name: string): Promise<Float32Array> {
  const wav = readWav(await readFile(`${AUDIO}${name}.wav`))
  if ('problem' in wav) throw new Error(wav.problem)
  return wav.pcm
}
const weights = async (pcm: Float32Array, texts: readonly string[]) => weigher.weigh(await weigher.take(pcm), texts)

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

describe('a saying in writing', () => {
  it('stands in one breath or word by word, with plain digits where the radio has its own names', () => {
    expect(written('niner two', ' ')).toBe('Nine two.')
    expect(written('one five fife', ', ')).toBe('One, five, five.')
  })
})
