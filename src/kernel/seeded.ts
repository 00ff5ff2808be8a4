/** Numbers that look random and follow from a seed: the same seed, the same numbers, on every machine. */

export interface Seeded {
  /** From 0 up to, not including, 1. */
  next(): number
  /** A whole number from 0 up to, not including, `count`. */
  below(count: number): number
  pick<T>(from: readonly T[]): T
}

/** A 32-bit Weyl sequence put through the finaliser of MurmurHash3 (Appleby; public domain). */
export function seeded(seed: number): Seeded {
  let state = Math.trunc(seed) >>> 0
  const next = (): number => {
    state = (state + 0x9e3779b9) >>> 0
    let mixed = state
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b)
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35)
    return ((mixed ^ (mixed >>> 16)) >>> 0) / 2 ** 32
  }
  const below = (count: number): number => Math.floor(next() * count)
  return {
    next,
    below,
    pick(from) {
      const picked = from[below(from.length)]
      if (picked === undefined) throw new Error('nothing to pick from')
      return picked
    },
  }
}
