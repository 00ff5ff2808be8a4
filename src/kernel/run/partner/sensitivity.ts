/**
 * How well somebody tells right from wrong: hit rate, false objections, sensitivity d' and bias c of signal detection
 * theory, by the usual formulae: d' = z(H) - z(F), c = -(z(H) + z(F)) / 2 (Macmillan & Creelman, Detection Theory; from
 * memory). Rates of 0 and 1 have no z: half a hit and half a false objection are added to each, and one to each count of
 * chances, whatever the rates are (the log-linear correction: Hautus 1995, Behavior Research Methods 27, 46-51; from memory).
 */

import { density, normalQuantile, Z95 } from '../../statistics/normal.ts'

export interface Counts {
  /** Chances with a fault in them, and those of them that were caught. */
  readonly faults: number
  readonly caught: number
  /** Chances without, and those that were objected to all the same. */
  readonly sound: number
  readonly falseObjections: number
}

export interface Sensitivity {
  readonly hitRate: number
  readonly falseRate: number
  /** With the correction; undefined where there was no fault, or nothing without one. */
  readonly dPrime?: number
  /** Above 0: slow to object; below: quick. */
  readonly bias?: number
  /** Half the width of the 95 % interval of `dPrime`. */
  readonly within?: number
}

/** Rates are 0 where there was no chance. */
export function sensitivityOf({ faults, caught, sound, falseObjections }: Counts): Sensitivity {
  const rates = { hitRate: faults === 0 ? 0 : caught / faults, falseRate: sound === 0 ? 0 : falseObjections / sound }
  if (faults === 0 || sound === 0) return rates
  const hit = (caught + 0.5) / (faults + 1)
  const wrong = (falseObjections + 0.5) / (sound + 1)
  const [zHit, zWrong] = [normalQuantile(hit), normalQuantile(wrong)]
  // Delta method: the variance of z(p) is p(1 - p) / (n * density squared).
  const variance = (p: number, n: number, z: number) => (p * (1 - p)) / (n * density(z) ** 2)
  const within = Z95 * Math.sqrt(variance(hit, faults + 1, zHit) + variance(wrong, sound + 1, zWrong))
  return { ...rates, dPrime: zHit - zWrong, bias: -(zHit + zWrong) / 2, within }
}
