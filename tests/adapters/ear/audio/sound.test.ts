import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { joined, loadDenoiser } from '../../../../src/adapters/ear/audio/denoise.ts'
import { dBFS, gainFor, prepared, speechRms } from '../../../../src/adapters/ear/audio/level.ts'
import { createResampler, resampled } from '../../../../src/adapters/ear/audio/resample.ts'
import { readWav } from '../../../../src/adapters/ear/audio/wav.ts'
import { DENOISER_WASM } from '../../../../src/adapters/ear/nodeEar.ts'

const tone = (rate: number, seconds = 0.5) =>
  new Float32Array(rate * seconds).map((_, at) => 0.5 * Math.sin((2 * Math.PI * 1000 * at) / rate))

describe('a microphone of any rate', () => {
  it.each([8000, 11_025, 22_050, 44_100, 48_000, 96_000])('of %i Hz comes out as the same sound at 16 kHz', (rate) => {
    const sound = resampled(tone(rate), rate, 16_000)
    const wanted = tone(16_000)
    const worst = sound.slice(200, -200).reduce((most, sample, at) => {
      return Math.max(most, Math.abs(sample - (wanted[at + 200] as number)))
    }, 0)
    expect(worst).toBeLessThan(0.01)
  })

  it('is converted in small pieces as in one', () => {
    const whole = resampled(tone(44_100), 44_100, 16_000)
    const stream = createResampler(44_100, 16_000)
    const source = tone(44_100)
    const pieces: number[] = []
    for (let at = 0; at < source.length; at += 128) pieces.push(...stream.push(source.slice(at, at + 128)))
    expect(pieces.length).toBeGreaterThan(whole.length - 100)
    pieces.forEach((sample, at) => {
      expect(sample).toBeCloseTo(whole[at] as number, 5)
    })
  })
})

describe('a quiet or loud speaker', () => {
  it.each([0.002, 0.02, 0.9])('at amplitude %f is brought to -20 dBFS', (amplitude) => {
    const pcm = tone(16_000).map((sample) => sample * amplitude)
    const level = dBFS(speechRms(prepared(gainFor(speechRms(pcm)), -90)(pcm)))
    expect(level).toBeCloseTo(-20, 0)
  })

  it('is the same in pieces as at once, the noise under it too', () => {
    const pcm = tone(4_000)
    const prepare = prepared(0.5, -60)
    const pieces = [pcm.slice(0, 480), pcm.slice(480, 2_000), pcm.slice(2_000)].flatMap((piece) => [...prepare(piece)])
    expect(pieces).toEqual([...prepared(0.5, -60)(pcm)])
    expect(pieces).not.toEqual([...pcm.map((sample) => sample * 0.5)])
  })
})

describe('the noise', () => {
  it('is taken off, and in part left in a sound in step with it', async () => {
    const file = fileURLToPath(new URL('../../../../audio/check/four-two-seven-one.wav', import.meta.url))
    const wav = readWav(await readFile(file))
    if ('problem' in wav) throw new Error(wav.problem)
    const denoiser = (await loadDenoiser(await readFile(DENOISER_WASM)))()
    const pieces = []
    for (let at = 0; at + 480 <= wav.pcm.length; at += 480) pieces.push(denoiser.push(wav.pcm.slice(at, at + 480)))
    const [clean, partlyDenoised] = [
      joined(pieces.map(({ clean }) => clean)),
      joined(pieces.map(({ partlyDenoised }) => partlyDenoised)),
    ]
    const left = partlyDenoised.map((sample, at) => sample - (clean[at] ?? 0))
    const product = (one: Float32Array, other: Float32Array) =>
      one.reduce((sum, sample, at) => sum + sample * (other[at] ?? 0), 0)
    // Of speech without noise nearly nothing is taken off, so what is put back is the same, only fainter.
    expect(product(left, clean) / Math.sqrt(product(left, left) * product(clean, clean))).toBeGreaterThan(0.95)
    expect(Math.sqrt(product(left, left) / product(clean, clean))).toBeLessThan(0.2)
  })
})

/** A WAV file of 16-bit samples. */
function wavOf(samples: readonly number[], rate: number, channels: number): Uint8Array {
  const bytes = new Uint8Array(44 + samples.length * 2)
  const view = new DataView(bytes.buffer)
  const text = (at: number, tag: string) =>
    bytes.set(
      [...tag].map((letter) => letter.charCodeAt(0)),
      at,
    )
  text(0, 'RIFF')
  view.setUint32(4, bytes.length - 8, true)
  text(8, 'WAVEfmt ')
  view.setUint32(16, 16, true)
  view.setUint16(20, 1, true)
  view.setUint16(22, channels, true)
  view.setUint32(24, rate, true)
  view.setUint32(28, rate * channels * 2, true)
  view.setUint16(32, channels * 2, true)
  view.setUint16(34, 16, true)
  text(36, 'data')
  view.setUint32(40, samples.length * 2, true)
  samples.forEach((sample, at) => {
    view.setInt16(44 + 2 * at, sample, true)
  })
  return bytes
}

describe('a sound file', () => {
  it('in stereo is heard as the mean of both sides', () => {
    const read = readWav(wavOf([8000, 0, 8000, 0], 16_000, 2))
    expect(read).toMatchObject({ rate: 16_000 })
    expect('pcm' in read && [...read.pcm]).toEqual([4000 / 32768, 4000 / 32768])
  })

  it.each([
    [new Uint8Array(3), 'not a WAV file'],
    [wavOf([], 16_000, 1).slice(0, 30), 'WAV without sound in it'],
    [wavOf([1, 2], 0, 1), 'WAV with a broken header; save it as 16-bit PCM'],
  ])('that is broken says so', (bytes, problem) => {
    expect(readWav(bytes)).toEqual({ problem })
  })
})
