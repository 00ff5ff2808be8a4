/** How sure a figure is: intervals that hold for few trials as well. 95 % throughout. */

import { seeded } from '../seeded.ts'
import { Z95 } from './normal.ts'

export interface Estimate {
  /** How many trials it rests on. */
  readonly n: number
  /** Undefined where there are none. */
  readonly value: number | undefined
  /** Undefined where so few can bound nothing. */
  readonly low: number | undefined
  readonly high: number | undefined
}

/** The score interval of E. B. Wilson (1927) for a share of `right` in `n`. */
export function shareOf(right: number, n: number): Estimate {
  if (n === 0) return { n, value: undefined, low: undefined, high: undefined }
  const share = right / n
  const square = Z95 ** 2
  const centre = share + square / (2 * n)
  const half = Z95 * Math.sqrt((share * (1 - share)) / n + square / (4 * n * n))
  const scale = 1 + square / n
  return { n, value: share, low: Math.max(0, (centre - half) / scale), high: Math.min(1, (centre + half) / scale) }
}

/** The middle, between two order statistics that hold it with 95 % whatever the distribution; five or fewer hold nothing so sure. */
export function medianOf(values: readonly number[]): Estimate {
  const sorted = Float64Array.from(values).sort()
  const n = sorted.length
  if (n === 0) return { n, value: undefined, low: undefined, high: undefined }
  const value = ((sorted[(n - 1) >> 1] ?? 0) + (sorted[n >> 1] ?? 0)) / 2
  const rank = lowRank(n)
  return rank === 0
    ? { n, value, low: undefined, high: undefined }
    : { n, value, low: sorted[rank - 1], high: sorted[n - rank] }
}

const ranks = new Map<number, number>()

/** The greatest rank, from 1, that at most 2.5 % of samples have above the median: of the binomial of n halves. 0: none. */
function lowRank(n: number): number {
  const known = ranks.get(n)
  if (known !== undefined) return known
  let rank = 0
  // In logarithms: half to the power of thousands is nothing to a computer.
  let logTerm = n * Math.log(0.5)
  let below = Math.exp(logTerm)
  while (below <= 0.025 && rank < n / 2) {
    rank++
    logTerm += Math.log((n - rank + 1) / rank)
    below += Math.exp(logTerm)
  }
  ranks.set(n, rank)
  return rank
}

/** Right or not, by a length that makes it harder. */
export interface ByLength {
  readonly length: number
  readonly right: number
  readonly n: number
}

/** Shares that never rise with length: neighbours that do are taken together (Ayer and others, 1955: pool adjacent violators). */
export function fallingShares(byLength: readonly ByLength[]): number[] {
  const blocks: { right: number; n: number; count: number }[] = []
  for (const { right, n } of byLength) {
    blocks.push({ right, n, count: 1 })
    for (;;) {
      const [before, last] = [blocks.at(-2), blocks.at(-1)]
      if (!before || !last || before.right * last.n >= last.right * before.n) break
      blocks.splice(-2, 2, { right: before.right + last.right, n: before.n + last.n, count: before.count + last.count })
    }
  }
  return blocks.flatMap(({ right, n, count }) => Array<number>(count).fill(right / n))
}

/** The greatest length that is held at this share; undefined where not even the shortest is. Lengths rise. */
export function lengthHeld(byLength: readonly ByLength[], share: number): number | undefined {
  const shares = fallingShares(byLength)
  return byLength.findLast((_, index) => (shares[index] ?? 0) >= share)?.length
}

const RESAMPLES = 1_000

/** The same, with what it would have been in samples drawn from the same trials. Where it is held at no length, 0 stands for it. */
export function lengthHeldOf(byLength: readonly ByLength[], share: number, seed: number): Estimate {
  const some = byLength.filter(({ n }) => n > 0)
  const n = some.reduce((sum, one) => sum + one.n, 0)
  if (n === 0) return { n, value: undefined, low: undefined, high: undefined }
  const chance = seeded(seed)
  const drawn = Array.from({ length: RESAMPLES }, () => {
    const again = some.map(({ length, right, n }) => ({ length, n, right: drawnRight(chance.next, right / n, n) }))
    return lengthHeld(again, share) ?? 0
  }).sort((one, other) => one - other)
  return {
    n,
    value: lengthHeld(some, share) ?? 0,
    low: drawn[Math.floor(0.025 * RESAMPLES)],
    high: drawn[Math.ceil(0.975 * RESAMPLES) - 1],
  }
}

/** How many of `n` drawn with replacement are right. Beyond some hundreds the normal says the same. */
function drawnRight(next: () => number, share: number, n: number): number {
  if (n <= 300) {
    let right = 0
    for (let index = 0; index < n; index++) if (next() < share) right++
    return right
  }
  const normal = Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next())
  return Math.min(n, Math.max(0, Math.round(n * share + normal * Math.sqrt(n * share * (1 - share)))))
}
