/** The standard normal distribution. */

/**
 * Share below `z`; off by less than 1.2e-7. By the error function's approximation as a Chebyshev fit
 * (Press et al., Numerical Recipes, section 6.2, from memory); held against a statistics library in the tests.
 */
export function normalBelow(z: number): number {
  const half = complementOfError(Math.abs(z) / Math.SQRT2) / 2
  return z < 0 ? half : 1 - half
}

const FIT = [
  -1.26551223, 1.00002368, 0.37409196, 0.09678418, -0.18628806, 0.27886807, -1.13520398, 1.48851587, -0.82215223,
  0.17087277,
]

/** Of x at or above 0. */
function complementOfError(x: number): number {
  const t = 1 / (1 + x / 2)
  const sum = FIT.reduceRight((inner, factor) => factor + t * inner, 0)
  return t * Math.exp(-x * x + sum)
}
