/**
 * Cockpit-like noise, airflow and babble, mixed under speech at a given ratio. Repeatable.
 *
 * Cockpit noise is brown noise from 40 to 1200 Hz (85 % of its power), pink noise from 200 to 6000 Hz (5 %) and tones
 * at 73, 146, 219 and 400 Hz (10 %). The shares are such that without noise suppression human digit strings are heard
 * about as well in it as in the noise that the targets were set with. The ratio is that of the speech's loudest 40 % of
 * 20 ms frames to all of the noise, both as RMS over the whole band, in dB.
 */

import { rms, speechRms } from '../../src/adapters/ear/audio/level.ts'
import { type Random, randomFrom } from './earCases.ts'

const RATE = 16000
/** The noise is there before the answer, as in a cockpit: the suppressor runs all the time. */
const LEAD = RATE * 3
const SHARES = { brown: 0.85, pink: 0.05, tones: 0.1 }
const TONES_HZ = [73, 146, 219, 400]

export function cockpitNoise(samples: number, seed: number): Float32Array {
  const random = randomFrom(seed)
  const brown = unit(band(brownNoise(samples, random), 40, 1200))
  const pink = unit(band(pinkNoise(samples, random), 200, 6000))
  const tones = unit(
    new Float32Array(samples).map((_, at) =>
      TONES_HZ.reduce((sum, hertz) => sum + Math.sin((2 * Math.PI * hertz * at) / RATE), 0),
    ),
  )
  const at = (sound: Float32Array, share: number, index: number) => Math.sqrt(share) * (sound[index] ?? 0)
  return new Float32Array(samples).map(
    (_, index) => at(brown, SHARES.brown, index) + at(pink, SHARES.pink, index) + at(tones, SHARES.tones, index),
  )
}

/** Harsher: broad airflow to 4 kHz, most of it in the band of speech, with a little rumble and hum. */
export function airflow(samples: number, seed: number): Float32Array {
  const random = randomFrom(seed)
  let [brown, last, slow, fast] = [0, 0, 0, 0]
  return new Float32Array(samples).map((_, at) => {
    const white = random() * 2 - 1
    brown = 0.97 * brown + 0.12 * white
    const rumble = brown - last
    last += 0.016 * (brown - last)
    slow += 0.12 * (white - slow)
    fast += 0.85 * (white - fast)
    const hum = TONES_HZ.reduce(
      (sum, hertz, index) => sum + Math.sin((2 * Math.PI * hertz * at) / RATE) / (index + 2),
      0,
    )
    return rumble + 0.35 * (fast - slow) + 0.08 * hum
  })
}

/** Several people at once: recordings on top of one another, each beginning somewhere else and coming round again. */
export function babble(talkers: readonly Float32Array[], samples: number, seed: number): Float32Array {
  const random = randomFrom(seed)
  const parts = talkers.map((pcm) => ({ pcm: unit(pcm), from: Math.floor(random() * pcm.length) }))
  return new Float32Array(samples).map((_, at) =>
    parts.reduce((sum, { pcm, from }) => sum + (pcm[(from + at) % pcm.length] ?? 0), 0),
  )
}

/** Speech in noise from a maker of samples; the noise begins three seconds before the recording. */
export function inNoise(pcm: Float32Array, ratioDb: number, noiseOf: (samples: number) => Float32Array): Float32Array {
  const noise = unit(noiseOf(pcm.length + LEAD))
  const gain = speechRms(pcm) / 10 ** (ratioDb / 20)
  return noise.map((sample, at) => sample * gain + (pcm[at - LEAD] ?? 0))
}

const unit = (pcm: Float32Array) => {
  const level = rms(pcm)
  return pcm.map((sample) => sample / level)
}
const white = (random: Random) => random() + random() + random() - 1.5

function brownNoise(samples: number, random: Random): Float32Array {
  let sum = 0
  return new Float32Array(samples).map(() => {
    sum = 0.999 * sum + white(random)
    return sum
  })
}

/** White noise through a ladder of one-pole filters, an octave and a half apart, falls by about 3 dB an octave. */
function pinkNoise(samples: number, random: Random): Float32Array {
  const poles = [0.997, 0.9915, 0.976, 0.934, 0.82, 0.56]
  const state = poles.map(() => 0)
  return new Float32Array(samples).map(() => {
    const input = white(random)
    let sum = 0
    poles.forEach((pole, index) => {
      const next = pole * (state[index] ?? 0) + Math.sqrt(1 - pole) * input
      state[index] = next
      sum += next
    })
    return sum
  })
}

/** Two second-order filters at either end: 24 dB an octave. */
function band(pcm: Float32Array, low: number, high: number): Float32Array {
  const twice = (sound: Float32Array, hertz: number, kind: 'high' | 'low') =>
    secondOrder(secondOrder(sound, hertz, kind), hertz, kind)
  return twice(twice(pcm, low, 'high'), high, 'low')
}

/** Butterworth by the bilinear transform; `kind` is what passes. */
function secondOrder(pcm: Float32Array, hertz: number, kind: 'high' | 'low'): Float32Array {
  const angle = (2 * Math.PI * hertz) / RATE
  const [cosine, alpha] = [Math.cos(angle), Math.sin(angle) / Math.SQRT2]
  const side = kind === 'high' ? (1 + cosine) / 2 : (1 - cosine) / 2
  const middle = kind === 'high' ? -2 * side : 2 * side
  let [x1, x2, y1, y2] = [0, 0, 0, 0]
  return pcm.map((x) => {
    const y = (side * x + middle * x1 + side * x2 + 2 * cosine * y1 - (1 - alpha) * y2) / (1 + alpha)
    ;[x2, x1, y2, y1] = [x1, x, y1, y]
    return y
  })
}
