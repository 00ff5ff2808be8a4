/** Noise suppression for a stream at 16 kHz, and how much of each frame is speech. */

import create, { type RnnoiseModule } from '@jitsi/rnnoise-wasm/dist/rnnoise.js'
import { createResampler, type Resampler } from './resample.ts'

/** The suppressor works on 10 ms at 48 kHz, with samples as large as 16-bit ones. */
const FRAME_48 = 480
const SCALE = 32768

/** Share of the original sound that is put back. Chosen on the tuning voices only. */
const LEFT = 0.12

export interface Denoised {
  /** Without the noise. */
  readonly clean: Float32Array
  /** With some of the noise left: the suppressor takes weak sounds with it. */
  readonly partlyDenoised: Float32Array
  /** Probability of speech, 0 to 1: the highest of its frames. */
  readonly speech: number
}

/** The module is loaded once; each stream has its own state. */
export async function loadDenoiser(wasm: ArrayBuffer | Uint8Array): Promise<() => Denoiser> {
  const module = await create({ wasmBinary: wasm })
  await module.ready
  return () => new Denoiser(module)
}

export class Denoiser {
  private readonly module: RnnoiseModule
  private state: number
  private readonly buffer: number
  private readonly up: Resampler = createResampler(16000, 48000)
  private readonly down: Resampler = createResampler(48000, 16000)
  private readonly downPartly: Resampler = createResampler(48000, 16000)
  private waiting: Float32Array = new Float32Array(0)
  /** The suppressor's output is one frame late. */
  private before: Float32Array = new Float32Array(FRAME_48)

  constructor(module: RnnoiseModule) {
    this.module = module
    this.state = module._rnnoise_create()
    this.buffer = module._malloc(FRAME_48 * 4)
  }

  /** Returns about as many samples as came in, some 12 ms late. */
  push(chunk: Float32Array): Denoised {
    const more = this.up.push(chunk)
    const input = new Float32Array(this.waiting.length + more.length)
    input.set(this.waiting)
    input.set(more, this.waiting.length)
    const whole = Math.floor(input.length / FRAME_48) * FRAME_48
    const clean = new Float32Array(whole)
    const partlyDenoised = new Float32Array(whole)
    let speech = 0
    for (let at = 0; at < whole; at += FRAME_48) {
      const heap = this.module.HEAPF32
      const base = this.buffer >> 2
      const frame = input.slice(at, at + FRAME_48)
      for (const [index, sample] of frame.entries()) heap[base + index] = sample * SCALE
      speech = Math.max(speech, this.module._rnnoise_process_frame(this.state, this.buffer, this.buffer))
      for (const [index, sample] of this.before.entries()) {
        const cleaned = (heap[base + index] ?? 0) / SCALE
        clean[at + index] = cleaned
        partlyDenoised[at + index] = cleaned + LEFT * sample
      }
      this.before = frame
    }
    this.waiting = input.slice(whole)
    return { clean: this.down.push(clean), partlyDenoised: this.downPartly.push(partlyDenoised), speech }
  }

  free(): void {
    this.module._rnnoise_destroy(this.state)
    this.module._free(this.buffer)
    this.state = 0
  }
}

export function joined(chunks: readonly Float32Array[]): Float32Array {
  const all = new Float32Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0))
  let at = 0
  for (const chunk of chunks) {
    all.set(chunk, at)
    at += chunk.length
  }
  return all
}
