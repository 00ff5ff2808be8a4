/** The standard normal distribution. */

export const density = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)

/** Beyond this either side holds less than a double can tell from none. */
const FARTHEST = 8

/** Share below `z`: 1/2 + density * (z + z^3/3 + z^5/(3*5) + ...), summed until nothing is added. */
export function normalBelow(z: number): number {
  if (Math.abs(z) > FARTHEST) return z < 0 ? 0 : 1
  let [term, sum] = [z, 0]
  for (let odd = 3; Math.abs(term) > Number.EPSILON * Math.abs(sum); odd += 2) {
    sum += term
    term *= (z * z) / odd
  }
  return 0.5 + sum * density(z)
}

/** Its inverse, for 0 < p < 1: halved until it cannot be told any closer. */
export function normalQuantile(p: number): number {
  let [low, high] = [-FARTHEST, FARTHEST]
  while (high - low > 1e-12) {
    const middle = (low + high) / 2
    if (normalBelow(middle) < p) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** Either side of the mean within it lie 95 %. */
export const Z95 = normalQuantile(0.975)
