/** From the facts of many runs to how the pilot comes on. Shares from 0 to 1, times in ms. */

import { type ByLength, type Estimate, lengthHeldOf, medianOf, shareOf } from '../statistics/intervals.ts'
import {
  type MissCause,
  type PlantedKind,
  type Resumption,
  type RunFacts,
  TRIAL_CLASSES,
  type Trial,
  type TrialClass,
} from './facts.ts'

/** Some runs one after another. */
export interface Stretch {
  /** Numbers of the runs from 1, the oldest. */
  readonly from: number
  readonly to: number
  readonly right: Estimate
  readonly time: Estimate
}

export interface ClassProgress {
  readonly of: TrialClass
  /** Oldest first: the pilot's own past. */
  readonly stretches: readonly Stretch[]
  readonly right: Estimate
  readonly time: Estimate
}

export const RARITIES = ['often', 'sometimes', 'rare'] as const
/** Something planted comes in the run after the one before it, two to four runs later, or after five or more. */
export type Rarity = (typeof RARITIES)[number]

export interface Progress {
  /** Drills are not among them. */
  readonly runs: number
  readonly drills: number
  /** Those that were tried at all. */
  readonly classes: readonly ClassProgress[]
  /** The most frequent first. */
  readonly causes: readonly { readonly cause: MissCause; readonly count: number; readonly share: Estimate }[]
  readonly misses: number
  readonly catches: readonly { readonly rarity: Rarity; readonly caught: Estimate }[]
  readonly catchesOf: readonly { readonly kind: PlantedKind; readonly caught: Estimate }[]
  readonly readBacks: readonly { readonly elements: number; readonly right: Estimate }[]
  /** Elements that are read back right at once nine times in ten. */
  readonly readBackHeld: Estimate
  readonly resumeErrors: readonly { readonly what: Resumption['what'] | 'all'; readonly errors: Estimate }[]
}

/** A picture has at most so many points. */
const STRETCHES = 8
/** Fewer trials at once say little of a stretch. */
const RUNS_AT_LEAST = 3

const HELD_AT = 0.9
/** Any number does: the same facts give the same interval. */
const SEED = 1

/** `facts` in any order. */
export function progressOf(facts: readonly RunFacts[]): Progress {
  const inOrder = [...facts].sort((one, other) => one.startedAt - other.startedAt)
  const runs = inOrder.filter(({ drill }) => !drill)
  const trials = runs.map((run) => run.trials)
  const all = trials.flat()
  return {
    runs: runs.length,
    drills: inOrder.length - runs.length,
    classes: classesIn(trials),
    ...causesIn(all),
    ...catchesIn(runs),
    ...readBacksIn(all),
    resumeErrors: resumeErrorsIn(runs.flatMap(({ resumptions }) => resumptions)),
  }
}

function classesIn(trials: readonly (readonly Trial[])[]): ClassProgress[] {
  const size = Math.max(RUNS_AT_LEAST, Math.ceil(trials.length / STRETCHES))
  const byClass = new Map<TrialClass, Trial[][]>(TRIAL_CLASSES.map((of) => [of, []]))
  for (const [run, some] of trials.entries()) {
    const stretch = Math.floor(run / size)
    for (const trial of some) {
      const stretches = byClass.get(trial.of) ?? []
      stretches[stretch] ??= []
      stretches[stretch].push(trial)
    }
  }
  return [...byClass].flatMap(([of, some]): ClassProgress[] => {
    const whole = some.flat()
    if (whole.length === 0) return []
    const stretches = Array.from({ length: Math.ceil(trials.length / size) }, (_, index): Stretch => {
      const from = index * size + 1
      return { from, to: Math.min(trials.length, from + size - 1), ...summed(some[index] ?? []) }
    })
    return [{ of, stretches, ...summed(whole) }]
  })
}

function summed(trials: readonly Trial[]): { readonly right: Estimate; readonly time: Estimate } {
  const times = trials.flatMap(({ ms }) => (ms === undefined ? [] : [ms]))
  return { right: shareOf(trials.filter(({ right }) => right).length, trials.length), time: medianOf(times) }
}

function causesIn(trials: readonly Trial[]): Pick<Progress, 'causes' | 'misses'> {
  const counts = new Map<MissCause, number>()
  for (const { right, cause } of trials) if (!right && cause) counts.set(cause, (counts.get(cause) ?? 0) + 1)
  const misses = [...counts.values()].reduce((sum, count) => sum + count, 0)
  const causes = [...counts]
    .sort(([, one], [, other]) => other - one)
    .map(([cause, count]) => ({ cause, count, share: shareOf(count, misses) }))
  return { causes, misses }
}

interface Caught {
  caught: number
  n: number
}

function tally<K>(counts: Map<K, Caught>, key: K, isCaught: boolean): void {
  const { caught, n } = counts.get(key) ?? { caught: 0, n: 0 }
  counts.set(key, { caught: caught + Number(isCaught), n: n + 1 })
}

function catchesIn(runs: readonly RunFacts[]): Pick<Progress, 'catches' | 'catchesOf'> {
  const byRarity = new Map<Rarity, Caught>()
  const byKind = new Map<PlantedKind, Caught>()
  let last = -1
  for (const [index, { planted }] of runs.entries()) {
    const gap = index - last
    const rarity = gap === 1 ? 'often' : gap < 5 ? 'sometimes' : 'rare'
    for (const { kind, caught } of planted) {
      tally(byRarity, rarity, caught)
      tally(byKind, kind, caught)
    }
    if (planted.length > 0) last = index
  }
  const estimate = ({ caught, n }: Caught) => shareOf(caught, n)
  return {
    catches: RARITIES.flatMap((rarity) => {
      const found = byRarity.get(rarity)
      return found ? [{ rarity, caught: estimate(found) }] : []
    }),
    catchesOf: [...byKind].map(([kind, found]) => ({ kind, caught: estimate(found) })),
  }
}

function readBacksIn(trials: readonly Trial[]): Pick<Progress, 'readBacks' | 'readBackHeld'> {
  const counts = new Map<number, { right: number; n: number }>()
  for (const { of, elements = 0, right } of trials) {
    if (of !== 'readBack' || elements === 0) continue
    const so = counts.get(elements) ?? { right: 0, n: 0 }
    counts.set(elements, { right: so.right + Number(right), n: so.n + 1 })
  }
  const byLength: ByLength[] = [...counts]
    .map(([length, count]) => ({ length, ...count }))
    .sort((one, other) => one.length - other.length)
  return {
    readBacks: byLength.map(({ length, right, n }) => ({ elements: length, right: shareOf(right, n) })),
    readBackHeld: lengthHeldOf(byLength, HELD_AT, SEED),
  }
}

function resumeErrorsIn(all: readonly Resumption[]): Progress['resumeErrors'] {
  const errorsOf = (some: readonly Resumption[]) => shareOf(some.filter(({ right }) => !right).length, some.length)
  const kinds = (['standBy', 'break', 'left'] as const).flatMap((what) => {
    const some = all.filter((one) => one.what === what)
    return some.length === 0 ? [] : [{ what, errors: errorsOf(some) }]
  })
  return all.length === 0 ? [] : [...kinds, { what: 'all', errors: errorsOf(all) }]
}
