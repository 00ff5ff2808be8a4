/**
 * The pilot's edge: the number of elements of which half of the read-backs are right at once. Estimated from every trial by
 * Bayes' rule over a grid, with lengths chosen around what is known so far (QUEST: Watson & Pelli 1983, Perception &
 * Psychophysics 33, 113-120; from memory). That half are right is where a trial tells most, and where training is neither
 * idle nor hopeless.
 */

import type { Dial } from '../run/core/events.ts'
import type { Seeded } from '../seeded.ts'
import type { RunFacts } from './facts.ts'

export interface LengthTrial {
  readonly elements: number
  readonly right: boolean
}

export interface Edge {
  /** Trials. */
  readonly n: number
  /** In elements; `low` to `high` is where it lies 95 times in a hundred. */
  readonly value: number
  readonly low: number
  readonly high: number
}

export const SHORTEST = 1
/** Of a transmission that anybody gives: no more elements are put in one. */
export const LONGEST = 9
/** Transmissions of one block. */
export const BLOCK = 6

/** What is expected of a pilot of whom nothing is known: our guess, wide. */
const EXPECTED = 4.5
const EXPECTED_WITHIN = 2.5
/** How fast it gets hard, in elements, and what goes wrong at any length: of the order found for memory spans (from memory). */
const SLOPE = 0.6
const LAPSES = 0.03
const STEP = 0.1
const GRID = Array.from({ length: Math.round((LONGEST + 1) / STEP) + 1 }, (_, at) => at * STEP)
/** Older trials are of somebody who could do less. */
const LAST_TRIALS = 60

const rightAt = (edge: number, elements: number) =>
  LAPSES / 2 + (1 - LAPSES) / (1 + Math.exp((elements - edge) / SLOPE))

/** The oldest first. */
export function edgeOf(trials: readonly LengthTrial[]): Edge {
  const some = trials.slice(-LAST_TRIALS)
  const logs = GRID.map((edge) => {
    const expected = -(((edge - EXPECTED) / EXPECTED_WITHIN) ** 2) / 2
    return some.reduce((sum, { elements, right }) => {
      const share = rightAt(edge, elements)
      return sum + Math.log(right ? share : 1 - share)
    }, expected)
  })
  const most = Math.max(...logs)
  const weights = logs.map((one) => Math.exp(one - most))
  const whole = weights.reduce((sum, one) => sum + one, 0)
  const mean = GRID.reduce((sum, edge, at) => sum + edge * (weights[at] ?? 0), 0) / whole
  const quantile = (share: number) => {
    let sum = 0
    const at = weights.findIndex((one) => {
      sum += one / whole
      return sum >= share
    })
    return GRID[at] ?? LONGEST
  }
  return { n: some.length, value: mean, low: quantile(0.025), high: quantile(0.975) }
}

/** One shorter, one longer, and between: in an order that nobody can foresee. */
const AROUND = [-1, -0.5, 0, 0, 0.5, 1]

/** How long the transmissions of the next block are. */
export function nextLengths({ value }: Edge, chance: Seeded): number[] {
  const lengths = AROUND.map((by) => Math.min(LONGEST, Math.max(SHORTEST, Math.round(value + by))))
  return lengths
    .map((length) => ({ length, at: chance.next() }))
    .sort((one, other) => one.at - other.at)
    .map(({ length }) => length)
}

/** Trials of blocks that were put like this, the oldest first. */
export function trialsAt(facts: readonly RunFacts[], dial: Dial): LengthTrial[] {
  return inOrder(facts).flatMap((run) => (run.dial && isSameDial(run.dial, dial) ? lengthTrials(run) : []))
}

export const inOrder = (facts: readonly RunFacts[]): RunFacts[] =>
  [...facts].sort((one, other) => one.startedAt - other.startedAt)

export const isSameDial = (one: Dial, other: Dial): boolean =>
  (Object.keys(one) as (keyof Dial)[]).every((name) => one[name] === other[name])

/** Those that count: one of a transmission, not of the amendment that follows it. */
export const lengthTrials = ({ trials }: Pick<RunFacts, 'trials'>): LengthTrial[] =>
  trials.flatMap(({ of, card, elements, right, helped }) =>
    of === 'readBack' && elements !== undefined && card.endsWith(`.${COUNTED_TURN}`)
      ? [{ elements, right: right && !helped }]
      : [],
  )

/** The turn of a transmission that counts, in the pack that is made for a block. */
export const COUNTED_TURN = 'clearance'
