/** A microphone of any rate: what comes off the audio thread for it is understood, word for word. */

import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { beforeAll, describe, expect, it } from 'vitest'
import { createResampler, resampled } from '../../../../src/adapters/ear/audio/resample.ts'
import { readWav } from '../../../../src/adapters/ear/audio/wav.ts'
import { createNodeRecogniser, type NodeRecogniser } from '../../../../src/adapters/ear/nodeEar.ts'
import { sameWords } from '../../../../src/adapters/ear/utterance/agreement.ts'
import { vocabularyOfItems } from '../../../../src/kernel/hearing/vocabulary.ts'
import type { KindSpec } from '../../../../src/kernel/kinds/kind.ts'
import { VALUE_ITEMS, WORD_ITEMS } from '../../../bench/earCases.ts'

/** Samples that an audio thread hands over at a time. */
const QUANTUM = 128

let recogniser: NodeRecogniser
beforeAll(async () => {
  recogniser = await createNodeRecogniser(vocabularyOfItems([...WORD_ITEMS, ...VALUE_ITEMS], []))
})

/** The recording as a microphone of a rate gives it, and as the audio thread passes it on. */
function captured(name: string, rate: number): Float32Array {
  const file = fileURLToPath(new URL(`../../../../audio/check/${name}.wav`, import.meta.url))
  const wav = readWav(readFileSync(file))
  if ('problem' in wav) throw new Error(wav.problem)
  const given = resampled(wav.pcm, 16_000, rate)
  const converter = createResampler(rate, 16_000)
  const pieces: number[] = []
  for (let at = 0; at < given.length; at += QUANTUM) pieces.push(...converter.push(given.slice(at, at + QUANTUM)))
  return Float32Array.from(pieces)
}

const ANSWERS: readonly (readonly [string, readonly KindSpec[], string])[] = [
  ['five-point-two-down', [{ kind: 'trim', decimals: 1 }], 'five point two down'],
  ['four-two-seven-one', [{ kind: 'digits', length: 4 }], 'four two seven one'],
  ['one-zero-one-three', [{ kind: 'altimeter', unit: 'hPa' }], 'one zero one three'],
  ['closed-and-unlocked', [], 'closed and unlocked'],
]

describe.each([8_000, 16_000, 22_050, 44_100, 48_000, 96_000])('at %i Hz', (rate) => {
  it.each(ANSWERS)('a clear answer is understood: %s', async (name, shapes, words) => {
    const { text, doubt } = await recogniser.recognise(captured(name, rate), { shapes, yesNo: false })
    expect(doubt, text).toBeUndefined()
    expect(sameWords(text, words), text).toBe(true)
  })
})
