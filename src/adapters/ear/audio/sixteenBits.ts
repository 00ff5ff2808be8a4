/** Samples from -1 to 1 as whole numbers of 16 bits, as files of sound hold them: half the room, and nothing that is heard is lost. */

const MOST = 32767

export function inSixteenBits(pcm: Float32Array): Int16Array {
  return Int16Array.from(pcm, (sample) => Math.round(Math.max(-1, Math.min(1, sample)) * MOST))
}
