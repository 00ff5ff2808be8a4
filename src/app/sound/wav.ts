/**
 * The sound of an utterance as a WAV file, and back: 16 kHz mono, 16-bit PCM, with the shortest head there is, so that the
 * same samples are the same file to the byte. Only what was saved so is read: anything else was made by somebody else.
 */

export const RATE = 16_000
const HEAD = 44
const BYTES = 2

export function wavOf(samples: Int16Array): Uint8Array {
  const file = new Uint8Array(HEAD + samples.length * BYTES)
  const view = new DataView(file.buffer)
  const tag = (at: number, letters: string) => {
    for (const [index, letter] of [...letters].entries()) view.setUint8(at + index, letter.charCodeAt(0))
  }
  tag(0, 'RIFF')
  view.setUint32(4, file.length - 8, true)
  tag(8, 'WAVEfmt ')
  view.setUint32(16, 16, true)
  // PCM, one channel.
  view.setUint16(20, 1, true)
  view.setUint16(22, 1, true)
  view.setUint32(24, RATE, true)
  view.setUint32(28, RATE * BYTES, true)
  view.setUint16(32, BYTES, true)
  view.setUint16(34, 8 * BYTES, true)
  tag(36, 'data')
  view.setUint32(40, samples.length * BYTES, true)
  for (const [index, sample] of samples.entries()) view.setInt16(HEAD + index * BYTES, sample, true)
  return file
}

/** Undefined where it is no such file, or not the whole of one. */
export function samplesIn(file: Uint8Array): Int16Array | undefined {
  const length = (file.length - HEAD) / BYTES
  if (length < 1 || !Number.isInteger(length)) return undefined
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength)
  const samples = Int16Array.from({ length }, (_, index) => view.getInt16(HEAD + index * BYTES, true))
  const head = wavOf(samples).subarray(0, HEAD)
  return head.every((byte, at) => file[at] === byte) ? samples : undefined
}
