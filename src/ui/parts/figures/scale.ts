/** An axis of a picture: round ticks around the values, and where a value stands between its ends. */

export interface Scale {
  readonly ticks: readonly number[]
  /** 0 at the first tick, 1 at the last. */
  readonly share: (value: number) => number
}

/** Steps of 1, 2 or 5 times a power of ten, about five of them. */
export function scaleOver(values: readonly number[]): Scale {
  const [min, max] = [Math.min(...values), Math.max(...values)]
  // Values that only differ in their last bits are one value.
  const isFlat = max - min <= 1e-9 * Math.max(1, Math.abs(min), Math.abs(max))
  const rough = (isFlat ? 1 : max - min) / 5
  const power = 10 ** Math.floor(Math.log10(rough))
  const step = power * ([1, 2, 5, 10].find((times) => times * power >= rough) ?? 10)
  const [first, last] = [Math.floor(min / step) * step, Math.ceil(max / step) * step]
  const count = Math.round((last - first) / step)
  const ticks = Array.from({ length: count + 1 }, (_, number) => first + number * step)
  return { ticks, share: (value) => (last === first ? 0.5 : (value - first) / (last - first)) }
}
