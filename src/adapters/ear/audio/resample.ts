/** Changes the sampling rate of a stream, chunk by chunk, with a windowed-sinc filter. Pure. */

/** Zero crossings of the sinc on each side of the middle, at the lower of the two rates. */
const CROSSINGS = 12

export interface Resampler {
  /** What can be said about the samples so far; the rest comes with the next chunk. */
  push(chunk: Float32Array): Float32Array
}

/** From one rate to another, both in Hz, 4 to 192 kHz. The output is late by the half length of the filter. */
export function createResampler(from: number, to: number): Resampler {
  if (from === to) return { push: (chunk) => chunk }
  const kernel = createKernel(from, to)
  const { half } = kernel
  let kept = new Float32Array(half)
  // The next output sample, counted from the first one, and where `kept` begins in the input.
  let index = 0
  let start = -half
  return {
    push(chunk) {
      const input = new Float32Array(kept.length + chunk.length)
      input.set(kept)
      input.set(chunk, kept.length)
      const out: number[] = []
      for (; (index * from) / to + half + 1 < start + input.length; index++) out.push(kernel.at(input, index, start))
      const drop = Math.max(0, Math.min(input.length, Math.floor((index * from) / to) - half - start))
      kept = input.slice(drop)
      start += drop
      return Float32Array.from(out)
    },
  }
}

/** A whole recording at another rate, both in Hz, in step with the original. */
export function resampled(pcm: Float32Array, from: number, to: number): Float32Array {
  if (from === to) return pcm
  const kernel = createKernel(from, to)
  const padded = new Float32Array(pcm.length + 2 * kernel.half + 2)
  padded.set(pcm, kernel.half)
  const out = new Float32Array(Math.floor((pcm.length * to) / from))
  for (let index = 0; index < out.length; index++) out[index] = kernel.at(padded, index, -kernel.half)
  return out
}

/** More places between two samples than this are rounded; the fault is far below the noise of any room. */
const MOST_PHASES = 512

/** The filter, its taps made once for each place that an output sample can have between two input samples. */
function createKernel(from: number, to: number) {
  const cutoff = Math.min(1, to / from) * 0.95
  const half = Math.ceil(CROSSINGS / cutoff)
  const phases = Math.min(MOST_PHASES, to / greatestCommonDivisor(from, to))
  const table: (Float32Array | undefined)[] = []
  const taps = (phase: number) => {
    const known = table[phase]
    if (known) return known
    const made = new Float32Array(2 * half + 1).map((_, tap) => weight(tap - half - phase / phases, half, cutoff))
    table[phase] = made
    return made
  }
  return {
    half,
    /** Output sample `index`; `input` begins at input sample `start`. */
    at(input: Float32Array, index: number, start: number): number {
      const place = (index * from) / to
      let whole = Math.floor(place)
      let phase = Math.round((place - whole) * phases)
      if (phase === phases) [whole, phase] = [whole + 1, 0]
      const weights = taps(phase)
      const first = whole - half - start
      let sum = 0
      for (let tap = 0; tap < weights.length; tap++) sum += (input[first + tap] ?? 0) * (weights[tap] as number)
      return sum
    },
  }
}

function weight(distance: number, half: number, cutoff: number): number {
  if (Math.abs(distance) > half) return 0
  const angle = Math.PI * distance * cutoff
  const sinc = angle === 0 ? 1 : Math.sin(angle) / angle
  return sinc * cutoff * (0.5 + 0.5 * Math.cos((Math.PI * distance) / (half + 1)))
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b)
}
