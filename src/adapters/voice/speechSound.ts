/** What recorded clips and synthesised sentences have in common, so that nobody hears which is which: rate, edges, loudness. */

/** Of flite's voices, Hz. */
export const RATE = 16_000

const LOUDNESS_DB = -20
const PEAK = 0.89
const QUIET = 0.004
const MARGIN_MS = 20
const FADE_MS = 4

/** Without the silence at both ends, but for a margin; the edges are faded, so that joined clips do not click. Throws where all is silence. */
export function trimmed(samples: Float32Array): Float32Array<ArrayBuffer> {
  const isSound = (sample: number) => Math.abs(sample) > QUIET
  const margin = Math.round((MARGIN_MS * RATE) / 1000)
  const from = samples.findIndex(isSound)
  if (from < 0) throw new Error('nothing but silence was spoken')
  const to = samples.findLastIndex(isSound)
  const kept = samples.slice(Math.max(0, from - margin), to + margin)
  const fade = Math.round((FADE_MS * RATE) / 1000)
  return kept.map((sample, at) => sample * Math.min(1, at / fade, (kept.length - 1 - at) / fade))
}

/** At the same loudness as all others, as far as its peaks allow. */
export function levelled(samples: Float32Array<ArrayBuffer>): Float32Array<ArrayBuffer> {
  const power = samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length
  const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0)
  const gain = Math.min(10 ** (LOUDNESS_DB / 20) / Math.sqrt(power), PEAK / peak)
  return samples.map((sample) => sample * gain)
}
