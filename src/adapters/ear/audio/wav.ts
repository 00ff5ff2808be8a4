/** WAV bytes -> 16 kHz mono. PCM of 8, 16, 24 or 32 bits and 32-bit float, any rate, any number of channels. Pure. */

import { resampled } from './resample.ts'

const RATE = 16000

/** `problem` says what is wrong with the file and what would be right. */
export type ReadWav = { readonly pcm: Float32Array; readonly rate: number } | { readonly problem: string }

export function readWav(bytes: Uint8Array): ReadWav {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  if (bytes.length < 12 || tag(view, 0) !== 'RIFF' || tag(view, 8) !== 'WAVE') return { problem: 'not a WAV file' }
  let format: { code: number; channels: number; rate: number; bits: number } | undefined
  for (let at = 12; at + 8 <= bytes.length; ) {
    const [name, size] = [tag(view, at), view.getUint32(at + 4, true)]
    if (name === 'fmt ' && at + 24 <= bytes.length) {
      const code = view.getUint16(at + 8, true)
      const extended = code === 0xfffe && at + 34 <= bytes.length
      format = {
        code: extended ? view.getUint16(at + 32, true) : code,
        channels: view.getUint16(at + 10, true),
        rate: view.getUint32(at + 12, true),
        bits: view.getUint16(at + 22, true),
      }
    }
    if (name === 'data' && format) {
      const end = Math.min(bytes.length, at + 8 + size)
      const sample = sampleReader(view, format.code, format.bits)
      if (!sample) return { problem: `WAV with format ${format.code} of ${format.bits} bits; save it as 16-bit PCM` }
      if (format.channels < 1 || format.rate < 4000)
        return { problem: 'WAV with a broken header; save it as 16-bit PCM' }
      const mono = mixed(at + 8, end, format.channels, format.bits / 8, sample)
      return { pcm: resampled(mono, format.rate, RATE), rate: format.rate }
    }
    at += 8 + size + (size % 2)
  }
  return { problem: 'WAV without sound in it' }
}

const tag = (view: DataView, at: number) =>
  String.fromCharCode(...[0, 1, 2, 3].map((index) => view.getUint8(at + index)))

function sampleReader(view: DataView, code: number, bits: number): ((at: number) => number) | undefined {
  if (code === 3 && bits === 32) return (at) => view.getFloat32(at, true)
  if (code !== 1) return undefined
  if (bits === 8) return (at) => (view.getUint8(at) - 128) / 128
  if (bits === 16) return (at) => view.getInt16(at, true) / 32768
  if (bits === 24) return (at) => (view.getInt16(at + 1, true) * 256 + view.getUint8(at)) / 8388608
  if (bits === 32) return (at) => view.getInt32(at, true) / 2147483648
  return undefined
}

function mixed(
  begin: number,
  end: number,
  channels: number,
  size: number,
  sample: (at: number) => number,
): Float32Array {
  const frames = Math.floor((end - begin) / (channels * size))
  const out = new Float32Array(frames)
  for (let frame = 0; frame < frames; frame++) {
    let sum = 0
    for (let channel = 0; channel < channels; channel++) sum += sample(begin + (frame * channels + channel) * size)
    out[frame] = sum / channels
  }
  return out
}
