/**
 * How likely a wait is with a look and without: two normal distributions of the logarithm of the time with one spread,
 * so that one number, the distance of their means in spreads (d'), says how well they can be told apart, and both errors
 * at the threshold between them are the same. Means and spread are the pilot's own, drawn towards what is usual as long
 * as they rest on few answers (normal and inverse chi-squared prior; Gelman et al., Bayesian Data Analysis, from memory).
 */

import { normalBelow } from '../../../statistics/normal.ts'
import { LOOKS, type LookKind, type LookTimes, type Times } from './lookTimes.ts'

/**
 * What is usual, and how many answers it counts for: no source for the medians, and few answers outweigh them. To answer
 * by a word takes 600 ms to prepare, much of it while the other still speaks, so that gaps between turns are about 200 ms
 * (Levelt and Torreira 2015, from memory).
 */
const USUAL = {
  value: { median: 1_300, counts: 1 },
  /** Of the time for a value. */
  state: { share: 0.75, counts: 4 },
  word: { median: 450, counts: 1 },
  spread: { is: 0.3, counts: 6 },
} as const

export interface LookModel {
  /** Median waits in ms. */
  readonly lookedMs: number
  readonly quickMs: number
  /** Standard deviation of the logarithm, of both. */
  readonly spread: number
  /** A wait below it is likelier without a look than with one. */
  readonly thresholdMs: number
  /** Share of answers with a look that fall below the threshold, and of those without that fall above. */
  readonly errorRate: number
}

export type LookModels = Readonly<Record<LookKind, LookModel>>

/** Of one pilot. */
export function modelsOf(times: LookTimes): LookModels {
  const value = drawn(times.value, Math.log(USUAL.value.median), USUAL.value.counts)
  const state = drawn(times.state, value + Math.log(USUAL.state.share), USUAL.state.counts)
  const word = drawn(times.word, Math.log(USUAL.word.median), USUAL.word.counts)
  const spread = spreadOf([...LOOKS, 'word' as const].map((kind) => times[kind]))
  return { value: between(value, word, spread), state: between(state, word, spread) }
}

/** A mean drawn towards the usual one. */
const drawn = ({ count, mean }: Times, usual: number, counts: number): number =>
  (count * mean + counts * usual) / (count + counts)

function spreadOf(all: readonly Times[]): number {
  const { is, counts }: { readonly is: number; readonly counts: number } = USUAL.spread
  const squares = all.reduce((sum, times) => sum + times.squares, counts * is * is)
  const free = all.reduce((sum, { count }) => sum + Math.max(0, count - 1), counts)
  return Math.sqrt(squares / free)
}

/** Who looks takes longer: where the times say otherwise, they tell nothing. */
function between(looked: number, quick: number, spread: number): LookModel {
  const apart = Math.max(0, (looked - quick) / spread)
  return {
    ...{ lookedMs: Math.exp(looked), quickMs: Math.exp(quick), spread },
    thresholdMs: Math.exp((looked + quick) / 2),
    errorRate: normalBelow(-apart / 2),
  }
}

/** How many times likelier this wait is without a look than with one; below 1 the other way round. */
export function likelihoodRatio({ lookedMs, quickMs, spread }: LookModel, waitMs: number): number {
  const wait = Math.log(waitMs)
  const away = (median: number) => (wait - Math.log(median)) / spread
  return Math.exp((away(lookedMs) ** 2 - away(quickMs) ** 2) / 2)
}

/** More errors than this, and nothing is told. */
const MOST_ERRORS = 0.2
export const isTelling = ({ errorRate }: LookModel): boolean => errorRate <= MOST_ERRORS
