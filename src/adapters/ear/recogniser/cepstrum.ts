/** Log mel spectra -> their mean cepstrum, as the recogniser's front end makes it. Pure. */

import type { CepstralMean } from './speakerProfile.ts'

export const COEFFICIENTS = 13
/** The model's `lifter`. */
const LIFTER = 22

export interface LogMel {
  /** `nfr` rows of `nfeat` channels. */
  readonly data: Float32Array
  readonly nfr: number
  readonly nfeat: number
}

/** The cosine transform is linear: that of the mean is the mean of all. */
export function meanCepstrum({ data, nfr, nfeat }: LogMel): CepstralMean {
  const mel = new Float64Array(nfeat)
  data.forEach((value, at) => {
    const channel = at % nfeat
    mel[channel] = (mel[channel] ?? 0) + value / nfr
  })
  return Array.from({ length: COEFFICIENTS }, (_, order) => {
    const sum = mel.reduce(
      (sum, value, channel) => sum + value * Math.cos((order * (channel + 0.5) * Math.PI) / nfeat),
      0,
    )
    const scaled = sum * Math.sqrt((order === 0 ? 1 : 2) / nfeat)
    return scaled * (1 + (LIFTER / 2) * Math.sin((order * Math.PI) / LIFTER))
  })
}
