/** Loudness: levels in dBFS, bringing speech to one level, and a faint noise under it. Pure. */

const FRAME = 320
const TARGET_RMS = 0.1

export const dBFS = (rms: number): number => 20 * Math.log10(Math.max(rms, 1e-7))

export function rms(pcm: Float32Array): number {
  let sum = 0
  for (const sample of pcm) sum += sample * sample
  return pcm.length > 0 ? Math.sqrt(sum / pcm.length) : 0
}

/** RMS of the loudest 40 % of 20 ms frames: that of the speech, whatever the length of the pauses. */
export function speechRms(pcm: Float32Array): number {
  const powers: number[] = []
  for (let at = 0; at + FRAME <= pcm.length; at += FRAME) powers.push(rms(pcm.subarray(at, at + FRAME)) ** 2)
  powers.sort((a, b) => b - a)
  const loud = powers.slice(0, Math.max(1, Math.round(powers.length * 0.4)))
  return Math.sqrt(loud.reduce((sum, power) => sum + power, 0) / loud.length)
}

/** What brings speech of this RMS to -20 dBFS; silence stays as it is. */
export const gainFor = (level: number): number => (level > 1e-5 ? TARGET_RMS / level : 1)

/**
 * Sound piece by piece at this gain, with white noise at `floorDb` dBFS under it: the acoustic model has never met
 * digital silence. The noise is the same each time, so that one recording is always heard in one way.
 */
export function prepared(gain: number, floorDb: number): (pcm: Float32Array) => Float32Array {
  const floor = 10 ** (floorDb / 20)
  let seed = 0x2545f491
  const uniform = () => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0
    return seed / 0x100000000
  }
  // The sum of twelve uniform numbers is near enough to a Gaussian.
  const gaussian = () => {
    let sum = -6
    for (let count = 0; count < 12; count++) sum += uniform()
    return sum
  }
  return (pcm) => pcm.map((sample) => Math.max(-1, Math.min(1, sample * gain)) + floor * gaussian())
}
