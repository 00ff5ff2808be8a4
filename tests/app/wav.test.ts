/** Sound as files: the same samples both ways, as any program reads them, and nothing taken that is not whole. */

import { describe, expect, it } from 'vitest'
import { readWav } from '../../src/adapters/ear/audio/wav.ts'
import { RATE, samplesIn, wavOf } from '../../src/app/sound/wav.ts'

const SAMPLES = Int16Array.from({ length: 480 }, (_, at) => Math.round(30_000 * Math.sin(at / 7)))

describe('a WAV', () => {
  it('holds the samples to the bit, and is read by others as it was meant', () => {
    const file = wavOf(Int16Array.of(-32_768, -1, 0, 1, 32_767))
    expect(samplesIn(file)).toEqual(Int16Array.of(-32_768, -1, 0, 1, 32_767))
    const read = readWav(wavOf(SAMPLES))
    if ('problem' in read) throw new Error(read.problem)
    expect(read.rate).toBe(RATE)
    expect(read.pcm).toEqual(Float32Array.from(SAMPLES, (sample) => sample / 32_768))
  })

  it('is the same again, to the byte', () => {
    const file = wavOf(SAMPLES)
    expect(wavOf(samplesIn(file) ?? new Int16Array())).toEqual(file)
  })

  it('is read where it lies in a larger file', () => {
    const file = wavOf(SAMPLES)
    const around = new Uint8Array(file.length + 7)
    around.set(file, 3)
    expect(samplesIn(around.subarray(3, 3 + file.length))).toEqual(SAMPLES)
  })

  it('cut anywhere, or longer than it says, is none', () => {
    const file = wavOf(SAMPLES)
    for (let length = 0; length < file.length; length++) expect(samplesIn(file.subarray(0, length))).toBeUndefined()
    expect(samplesIn(Uint8Array.of(...file, 0, 0))).toBeUndefined()
  })

  it('with any other byte in its head is none', () => {
    for (let at = 0; at < 44; at++) {
      const file = wavOf(SAMPLES)
      file[at] = (file[at] ?? 0) ^ 1
      expect(samplesIn(file), `byte ${at}`).toBeUndefined()
    }
  })

  it('without sound is none', () => {
    expect(samplesIn(wavOf(new Int16Array()))).toBeUndefined()
  })
})
