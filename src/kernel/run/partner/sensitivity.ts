/**
 * How well somebody tells right from wrong: hit rate, false objections, sensitivity d' and bias c of signal detection
 * theory, by the usual formulae: d' = z(H) - z(F), c = -(z(H) + z(F)) / 2 (Macmillan & Creelman, Detection Theory; from
 * memory). Rates of 0 and 1 have no z: half a hit and half a false objection are added to each, and one to each count of
 * chances, whatever the rates are (the log-linear correction: Hautus 1995, Behavior Research Methods 27, 46-51; from memory).
 */

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
  const [zHit, zWrong] = [quantile(hit), quantile(wrong)]
  // Delta method: the variance of z(p) is p(1 - p) / (n * density squared).
  const variance = (p: number, n: number, z: number) => (p * (1 - p)) / (n * density(z) ** 2)
  const within = Z95 * Math.sqrt(variance(hit, faults + 1, zHit) + variance(wrong, sound + 1, zWrong))
  return { ...rates, dPrime: zHit - zWrong, bias: -(zHit + zWrong) / 2, within }
}

export interface Interval {
  readonly rate: number
  readonly from: number
  readonly to: number
}

/** Wilson's score interval of a rate, 95 % (Wilson 1927; from memory). From 0 to 1 where there was no chance. */
export function intervalOf(hits: number, chances: number): Interval {
  if (chances === 0) return { rate: 0, from: 0, to: 1 }
  const rate = hits / chances
  const square = Z95 ** 2
  const middle = (rate + square / (2 * chances)) / (1 + square / chances)
  const half = (Z95 / (1 + square / chances)) * Math.sqrt((rate * (1 - rate)) / chances + square / (4 * chances ** 2))
  return { rate, from: Math.max(0, middle - half), to: Math.min(1, middle + half) }
}

const density = (z: number) => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)

/** The standard normal distribution: 1/2 + density * (z + z^3/3 + z^5/(3*5) + ...), summed until nothing is added. */
export function normal(z: number): number {
  if (Math.abs(z) > 8) return z < 0 ? 0 : 1
  let [term, sum] = [z, 0]
  for (let odd = 3; sum + term !== sum; odd += 2) {
    sum += term
    term *= (z * z) / odd
  }
  return 0.5 + sum * density(z)
}

/** Its inverse, for 0 < p < 1: halved until it cannot be told any closer. */
export function quantile(p: number): number {
  let [low, high] = [-8, 8]
  while (high - low > 1e-12) {
    const middle = (low + high) / 2
    if (normal(middle) < p) low = middle
    else high = middle
  }
  return (low + high) / 2
}

const Z95 = quantile(0.975)
