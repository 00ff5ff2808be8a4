/**
 * How far two raters agree beyond what chance alone would give: kappa (J. Cohen, 1960, Educational and Psychological
 * Measurement 20, 37-46), weighted where steps are ordered (J. Cohen, 1968, Psychological Bulletin 70, 213-220), with the
 * large-sample standard error of J. L. Fleiss, J. Cohen and B. S. Everitt (1969, Psychological Bulletin 72, 323-327).
 */

import type { Estimate } from './intervals.ts'
import { Z95 } from './normal.ts'

/** Counts: the row is the step of the one, the column that of the other. Square. */
export type RatingTable = readonly (readonly number[])[]

/** What a pair of steps counts, from 0 to 1, by their numbers from 0 and how many steps there are; 1 where they are the same. */
export type Weight = (one: number, other: number, steps: number) => number

export const UNWEIGHTED: Weight = (one, other) => (one === other ? 1 : 0)
/** D. V. Cicchetti and T. Allison (1971): a step farther apart takes off as much as the one before. */
export const LINEAR: Weight = (one, other, steps) => 1 - Math.abs(one - other) / (steps - 1)
/** J. L. Fleiss and J. Cohen (1973): takes off the square of the distance. */
export const QUADRATIC: Weight = (one, other, steps) => 1 - ((one - other) / (steps - 1)) ** 2

/** Of pairs of steps, numbered from 0. */
export function ratingTable(pairs: readonly (readonly [number, number])[], steps: number): RatingTable {
  const table = Array.from({ length: steps }, () => Array<number>(steps).fill(0))
  for (const [one, other] of pairs) {
    const row = table[one]
    if (row?.[other] === undefined) throw new RangeError(`steps are 0 to ${steps - 1}, not ${one} and ${other}`)
    row[other] = row[other] + 1
  }
  return table
}

export interface Kappa extends Estimate {
  /** Undefined where there is no value. */
  readonly standardError: number | undefined
}

/**
 * Kappa with 95 %, cut off at -1 and 1. There is no value where there are no pairs, or where both always gave the same one
 * step: chance alone would then agree as well. There is no interval where no pair differs: the formula gives one of no width.
 */
export function kappaOf(table: RatingTable, weight: Weight): Kappa {
  const n = table.flat().reduce((sum, count) => sum + count, 0)
  const share = table.map((row) => row.map((count) => count / n))
  const rows = share.map((row) => sumOf(row))
  const columns = rows.map((_, at) => sumOf(share.map((row) => row[at] ?? 0)))
  const weights = table.map((row, one) => row.map((_, other) => weight(one, other, table.length)))
  const w = (one: number, other: number) => weights[one]?.[other] ?? 0
  const overAll = (term: (one: number, other: number) => number) =>
    sumOf(rows.flatMap((_, one) => columns.map((_, other) => term(one, other))))
  const p = (one: number, other: number) => share[one]?.[other] ?? 0
  const observed = overAll((one, other) => w(one, other) * p(one, other))
  const expected = overAll((one, other) => w(one, other) * (rows[one] ?? 0) * (columns[other] ?? 0))
  // Sums of shares: what is as good as one is one.
  if (n === 0 || 1 - expected < 1e-12)
    return { n, value: undefined, low: undefined, high: undefined, standardError: undefined }
  const value = (observed - expected) / (1 - expected)
  const rowWeight = rows.map((_, one) => sumOf(columns.map((part, other) => part * w(one, other))))
  const columnWeight = columns.map((_, other) => sumOf(rows.map((part, one) => part * w(one, other))))
  const spread = overAll((one, other) => {
    const own = w(one, other) * (1 - expected)
    return p(one, other) * (own - ((rowWeight[one] ?? 0) + (columnWeight[other] ?? 0)) * (1 - observed)) ** 2
  })
  const variance = (spread - (observed * expected - 2 * expected + observed) ** 2) / (n * (1 - expected) ** 4)
  const standardError = Math.sqrt(Math.max(0, variance))
  const bounded = standardError > 1e-9
  return {
    ...{ n, value, standardError },
    low: bounded ? Math.max(-1, value - Z95 * standardError) : undefined,
    high: bounded ? Math.min(1, value + Z95 * standardError) : undefined,
  }
}

const sumOf = (numbers: readonly number[]) => numbers.reduce((sum, one) => sum + one, 0)
