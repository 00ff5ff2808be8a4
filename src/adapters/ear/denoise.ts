/** Noise suppression for a stream at 16 kHz, and how much of each frame is speech. */

import create, { type RnnoiseModule } from '@jitsi/rnnoise-wasm/dist/rnnoise.js'
import { createResampler, type Resampler } from './resample.ts'

/** The suppressor works on 10 ms at 48 kHz, with samples as large as 16-bit ones. */
const FRAME_48 = 480
const SCALE = 32768

export interface Denoised {
  readonly pcm: Float32Array
  /** Probability of speech, 0 to 1, the highest of the frames in it. */
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
  private up: Resampler = createResampler(16000, 48000)
  private down: Resampler = createResampler(48000, 16000)
  private waiting: Float32Array = new Float32Array(0)

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
    let speech = 0
    for (let at = 0; at < whole; at += FRAME_48) {
      const heap = this.module.HEAPF32
      const base = this.buffer >> 2
      for (let index = 0; index < FRAME_48; index++) heap[base + index] = (input[at + index] ?? 0) * SCALE
      speech = Math.max(speech, this.module._rnnoise_process_frame(this.state, this.buffer, this.buffer))
      for (let index = 0; index < FRAME_48; index++) clean[at + index] = (heap[base + index] ?? 0) / SCALE
    }
    this.waiting = input.slice(whole)
    return { pcm: this.down.push(clean), speech }
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
