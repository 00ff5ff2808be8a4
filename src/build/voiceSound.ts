/** Sound as samples from -1 to 1, read from and written to WAV. */

/** Mono, 16 bit, as flite writes it. */
export function readWav(bytes: Uint8Array): { readonly rate: number; readonly samples: Float32Array } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const name = (at: number) => String.fromCharCode(...bytes.subarray(at, at + 4))
  let rate = 0
  for (let at = 12; at + 8 <= bytes.length; at += 8 + view.getUint32(at + 4, true)) {
    if (name(at) === 'fmt ') rate = view.getUint32(at + 12, true)
    if (name(at) !== 'data') continue
    const length = Math.min(view.getUint32(at + 4, true), bytes.length - at - 8) >> 1
    const samples = Float32Array.from({ length }, (_, index) => view.getInt16(at + 8 + index * 2, true) / 32_768)
    return { rate, samples }
  }
  throw new Error('no sound in the WAV file')
}

export function toWav(parts: readonly Float32Array[], rate: number): Uint8Array {
  const length = parts.reduce((sum, part) => sum + part.length, 0)
  const bytes = new Uint8Array(44 + length * 2)
  const view = new DataView(bytes.buffer)
  const name = (at: number, text: string) => bytes.set(new TextEncoder().encode(text), at)
  name(0, 'RIFF')
  view.setUint32(4, bytes.length - 8, true)
  name(8, 'WAVEfmt ')
  view.setUint32(16, 16, true)
  view.setUint16(20, 1, true)
  view.setUint16(22, 1, true)
  view.setUint32(24, rate, true)
  view.setUint32(28, rate * 2, true)
  view.setUint16(32, 2, true)
  view.setUint16(34, 16, true)
  name(36, 'data')
  view.setUint32(40, length * 2, true)
  let at = 44
  for (const part of parts) {
    for (const sample of part) {
      view.setInt16(at, Math.round(Math.max(-1, Math.min(1, sample)) * 32_767), true)
      at += 2
    }
  }
  return bytes
}
