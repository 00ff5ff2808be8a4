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
  writeHead(view, samples.length * BYTES)
  for (let at = 0; at < samples.length; at++) view.setInt16(HEAD + at * BYTES, samples[at] ?? 0, true)
  return file
}

/** Undefined where it is no such file, or not the whole of one. */
export function samplesIn(file: Uint8Array): Int16Array | undefined {
  const length = (file.length - HEAD) / BYTES
  if (length < 1 || !Number.isInteger(length)) return undefined
  const head = new Uint8Array(HEAD)
  writeHead(new DataView(head.buffer), length * BYTES)
  if (!head.every((byte, at) => file[at] === byte)) return undefined
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength)
  const samples = new Int16Array(length)
  for (let at = 0; at < length; at++) samples[at] = view.getInt16(HEAD + at * BYTES, true)
  return samples
}

/** `bytes`: of the samples behind it. */
function writeHead(view: DataView, bytes: number): void {
  const tag = (at: number, letters: string) => {
    for (const [index, letter] of [...letters].entries()) view.setUint8(at + index, letter.charCodeAt(0))
  }
  tag(0, 'RIFF')
  view.setUint32(4, HEAD - 8 + bytes, true)
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
  view.setUint32(40, bytes, true)
}
