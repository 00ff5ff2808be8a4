/** Counts of a benchmark, with honest intervals. */

export interface Tally {
  rightTried: number
  rightAccepted: number
  rightAcceptedInTwo: number
  rightCalledNegative: number
  /** Answers of which there are two recordings, and those of them that were right within two. */
  saidTwice: number
  rightOfSaidTwice: number
  wrongTried: number
  wrongAccepted: number
  otherTried: number
  otherTaken: number
}

export const emptyTally = (): Tally => ({
  ...{
    rightTried: 0,
    rightAccepted: 0,
    rightAcceptedInTwo: 0,
    rightCalledNegative: 0,
    saidTwice: 0,
    rightOfSaidTwice: 0,
  },
  ...{ wrongTried: 0, wrongAccepted: 0, otherTried: 0, otherTaken: 0 },
})

const Z = 1.96

/** "93 of 100 = 93.0 % (86.3 to 96.6)": the 95 % score interval of Wilson (1927), from memory. */
export function interval(count: number, of: number): string {
  if (of === 0) return '0 of 0'
  const [share, spread] = [count / of, (Z * Z) / of]
  const middle = (share + spread / 2) / (1 + spread)
  const half = (Z * Math.sqrt((share * (1 - share)) / of + spread / (4 * of))) / (1 + spread)
  const percent = (value: number) => (100 * Math.max(0, Math.min(1, value))).toFixed(share < 0.01 ? 3 : 1)
  return `${count} of ${of} = ${percent(share)} % (${percent(middle - half)} to ${percent(middle + half)})`
}

/** Nearest rank; 0 for none. */
export function percentile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? 0
}
