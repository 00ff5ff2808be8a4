/** The sounds of a room beside answers, one after another as in a training session. Repeatable. */

import { type Random, randomFrom } from './earCases.ts'
import { airflow } from './noise.ts'

const RATE = 16000
/** The quiet room: -66 dBFS. */
const HISS = 0.0005

export interface Sound {
  readonly what: string
  readonly pcm: Float32Array
}

const seconds = (length: number) => Math.round(length * RATE)
const between = (random: Random, from: number, to: number) => from + random() * (to - from)

/** Noise through a one-pole low-pass: `softness` 0 is white, near 1 a rumble. */
function breathy(random: Random, length: number, softness: number, shape: (part: number) => number): Float32Array {
  let last = 0
  return new Float32Array(length).map((_, at) => {
    last = softness * last + (1 - softness) * (random() * 2 - 1)
    return last * shape(at / length)
  })
}

/** A cough is two or three bursts, each sudden and dying away. */
function cough(random: Random): Float32Array {
  const out = new Float32Array(seconds(0.9))
  const bursts = random() < 0.5 ? 2 : 3
  for (let burst = 0; burst < bursts; burst++) {
    const sound = breathy(random, seconds(between(random, 0.12, 0.22)), 0.55, (part) => 0.8 * Math.exp(-5 * part))
    out.set(sound, seconds(burst * 0.28))
  }
  return out
}

const breath = (random: Random) =>
  breathy(random, seconds(between(random, 0.6, 1.4)), 0.7, (part) => 0.08 * Math.sin(Math.PI * part))

/** Switches, keys and a pen on the desk. */
function clicks(random: Random): Float32Array {
  const out = new Float32Array(seconds(0.8))
  for (let count = 0; count < 4; count++) {
    const click = breathy(random, seconds(0.02), 0.2, (part) => 0.6 * Math.exp(-12 * part))
    out.set(click, seconds(between(random, 0, 0.75)))
  }
  return out
}

export function noises(seed: number): Sound[] {
  const random = randomFrom(seed)
  const makers = { cough, breath, clicks }
  return Object.entries(makers).flatMap(([what, make]) => [0, 1, 2, 3].map(() => ({ what, pcm: make(random) })))
}

/** As a loudspeaker of a radio gives it: the band of a voice channel, with some noise. */
export function overRadio(pcm: Float32Array, seed: number): Float32Array {
  const noise = airflow(pcm.length, seed)
  let [low, high] = [0, 0]
  return pcm.map((sample, at) => {
    low += 0.12 * (sample - low)
    high += 0.7 * (sample - low - high)
    return 0.35 * high + 0.002 * (noise[at] ?? 0)
  })
}

export const fainter = (pcm: Float32Array, factor: number) => pcm.map((sample) => sample * factor)

/** Sounds drawn one after another until `minutes` are full, with pauses as in talk: most short, some long. */
export function* session(sounds: readonly Sound[], minutes: number, seed: number): Generator<Sound> {
  const random = randomFrom(seed)
  let left = seconds(minutes * 60)
  const quiet = (length: number): Sound => ({ what: 'quiet', pcm: hissing(new Float32Array(seconds(length)), random) })
  let order: Sound[] = []
  while (left > 0) {
    if (order.length === 0) order = shuffled(sounds, random)
    const sound = order.pop()
    if (!sound) return
    const pause = random() < 0.15 ? between(random, 5, 11) : between(random, 0.3, 2.5)
    for (const next of [{ ...sound, pcm: hissing(sound.pcm, random) }, quiet(pause)]) {
      yield next
      left -= next.pcm.length
    }
  }
}

const hissing = (pcm: Float32Array, random: Random) => pcm.map((sample) => sample + HISS * (random() * 2 - 1))

function shuffled(sounds: readonly Sound[], random: Random): Sound[] {
  const rest = [...sounds]
  const out: Sound[] = []
  while (rest.length > 0) out.push(...rest.splice(Math.floor(random() * rest.length), 1))
  return out
}
