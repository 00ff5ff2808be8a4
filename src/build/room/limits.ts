/** How much of anything a client may do: buckets that fill again with time, by the clock that is passed in. */

export interface Limit {
  /** At once. */
  readonly burst: number
  readonly perSecond: number
}

export interface Bucket {
  /** False where there is not so much left; nothing is taken then. */
  take(amount?: number): boolean
  /** What was taken and not used after all. */
  giveBack(amount?: number): void
  isFull(): boolean
}

export function createBucket({ burst, perSecond }: Limit, now: () => number): Bucket {
  let left = burst
  let at = now()
  const fill = () => {
    const time = now()
    left = Math.min(burst, left + ((time - at) / 1_000) * perSecond)
    at = time
  }
  return {
    take(amount = 1) {
      fill()
      if (left < amount) return false
      left -= amount
      return true
    },
    giveBack(amount = 1) {
      left = Math.min(burst, left + amount)
    },
    isFull() {
      fill()
      return left >= burst
    },
  }
}

/** A bucket for each address; those that are full again are forgotten, so that many addresses take no room for good. */
export function bucketsBy(limit: Limit, now: () => number): { of(name: string): Bucket } {
  const buckets = new Map<string, Bucket>()
  return {
    of(name) {
      if (buckets.size > 1_000) for (const [other, bucket] of buckets) if (bucket.isFull()) buckets.delete(other)
      const bucket = buckets.get(name) ?? createBucket(limit, now)
      buckets.set(name, bucket)
      return bucket
    },
  }
}
