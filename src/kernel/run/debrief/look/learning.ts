/**
 * What a run's answers add to the pilot's times. Nobody knows which of them came with a look, so each counts for both
 * as far as it is likely (expectation maximisation, a fixed number of rounds). Starting from the calibration, and held
 * by it.
 */

import { type LookModels, likelihoodRatio, modelsOf } from './lookModel.ts'
import { LONGEST_MS, LOOKS, type LookTimes, SHORTEST_MS, type Times, type Wait, withTime } from './lookTimes.ts'

const ROUNDS = 20
/** No more answers than these are remembered of a kind, so that times follow a pilot who gets quicker. */
const MOST_REMEMBERED = 60
/** Share of answers without a look: drawn towards a quarter as by so many answers. */
const USUAL_SHARE = { quick: 1, of: 4 } as const

/** The times with those of a run taken in. */
export function learned(times: LookTimes, waits: readonly Wait[]): LookTimes {
  const usable = waits.filter(({ ms }) => ms >= SHORTEST_MS && ms <= LONGEST_MS)
  const before = remembered(times)
  let next = before
  let share: number = USUAL_SHARE.quick / USUAL_SHARE.of
  for (let round = 0; round < ROUNDS; round++) {
    const models = modelsOf(next)
    const quick = usable.map((wait) => quickness(models, wait, share))
    next = usable.reduce((sum, wait, at) => taken(sum, wait, quick[at] ?? 0), before)
    share = quick.reduce((sum, one) => sum + one, USUAL_SHARE.quick) / (USUAL_SHARE.of + usable.length)
  }
  return next
}

/** Probability, from 0 to 1, that it came without a look. */
function quickness(models: LookModels, { kind, ms }: Wait, share: number): number {
  const odds = (likelihoodRatio(models[kind], ms) * share) / (1 - share)
  return odds === Number.POSITIVE_INFINITY ? 1 : odds / (1 + odds)
}

/**
 * The quickest of those that came with a look must not draw the times without one to them, run after run: for these an
 * answer counts only where it is likelier to be one of them.
 */
const taken = (times: LookTimes, { kind, ms }: Wait, quick: number): LookTimes => ({
  ...times,
  [kind]: withTime(times[kind], ms, 1 - quick),
  word: withTime(times.word, ms, quick > 0.5 ? quick : 0),
})

function remembered(times: LookTimes): LookTimes {
  const cut = ({ count, mean, squares }: Times): Times => {
    const kept = Math.min(1, MOST_REMEMBERED / Math.max(count, 1))
    return { count: count * kept, mean, squares: squares * kept }
  }
  const entries = [...LOOKS, 'word' as const].map((kind) => [kind, cut(times[kind])])
  return Object.fromEntries(entries) as unknown as LookTimes
}
