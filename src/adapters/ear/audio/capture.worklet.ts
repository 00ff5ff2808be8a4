/** Microphone -> numbered frames of 30 ms at 16 kHz, on the audio thread, by a port straight to the worker. */

import { type CapturedFrame, FRAME } from './frame.ts'
import { createResampler } from './resample.ts'

declare const sampleRate: number
declare const registerProcessor: (name: string, processor: new () => unknown) => void
declare class AudioWorkletProcessor {
  readonly port: MessagePort
}

const RATE = 16000

class Capture extends AudioWorkletProcessor {
  private readonly resampler = createResampler(sampleRate, RATE)
  private frame = new Float32Array(FRAME)
  private filled = 0
  private seq = 0
  private out: MessagePort | undefined

  constructor() {
    super()
    this.port.onmessage = ({ data }: MessageEvent<MessagePort>) => {
      this.out = data
    }
  }

  process(inputs: readonly (readonly Float32Array[])[]): boolean {
    const [channel] = inputs[0] ?? []
    if (channel) for (const sample of this.resampler.push(channel.slice())) this.take(sample)
    return true
  }

  private take(sample: number): void {
    this.frame[this.filled++] = sample
    if (this.filled < FRAME) return
    const message: CapturedFrame = { seq: this.seq++, endedAt: Date.now(), pcm: this.frame }
    this.out?.postMessage(message, [this.frame.buffer])
    this.frame = new Float32Array(FRAME)
    this.filled = 0
  }
}

registerProcessor('capture', Capture)
