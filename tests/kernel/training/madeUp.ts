/** Facts of runs that nobody flew, by seed: a pilot who comes on, and misses as people do. */

import { type Seeded, seeded } from '../../../src/kernel/seeded.ts'
import {
  FACTS_EDITION,
  type MissCause,
  type RunFacts,
  type Trial,
  type TrialClass,
} from '../../../src/kernel/training/facts.ts'

const DAY_MS = 86_400_000
const CLASSES: readonly TrialClass[] = [
  'value',
  'value',
  'value',
  'word',
  'word',
  'readBack',
  'exchange',
  'watchCall',
  'flow',
  'reading',
]
const CAUSES: readonly MissCause[] = [
  'earlierRevision',
  'earlierRevision',
  'otherValue',
  'leftOut',
  'digitsSwapped',
  'valueless',
  'otherFigure',
]

export interface MadeUp {
  readonly runs: number
  readonly trials: number
  /** Of the last run; one a day before it. */
  readonly lastAt?: number
  readonly seed?: number
  /** Cards of each class. */
  readonly cards?: Partial<Readonly<Record<TrialClass, readonly string[]>>>
}

export function madeUpRuns({ runs, trials, lastAt = 0, seed = 1, cards = {} }: MadeUp): RunFacts[] {
  const chance = seeded(seed)
  return Array.from({ length: runs }, (_, run): RunFacts => {
    const learned = run / Math.max(1, runs - 1)
    return {
      edition: FACTS_EDITION,
      runId: `made-up-${run}`,
      packId: 'marram',
      startedAt: lastAt - (runs - 1 - run) * DAY_MS,
      trials: Array.from({ length: trials }, (_, index) => trialOf(chance, index, learned, cards)),
      resumptions:
        chance.next() < 0.5
          ? [{ what: chance.pick(['standBy', 'break', 'left'] as const), right: chance.next() < 0.85 }]
          : [],
      planted:
        run % 3 === 0 || chance.next() < 0.2
          ? [
              {
                kind: chance.pick(['staleTrim', 'oldSheet', 'slip'] as const),
                caught: chance.next() < 0.4 + 0.4 * learned,
              },
            ]
          : [],
    }
  })
}

function trialOf(chance: Seeded, index: number, learned: number, cards: NonNullable<MadeUp['cards']>): Trial {
  const of = chance.pick(CLASSES)
  const elements = of === 'readBack' ? 1 + chance.below(6) : undefined
  const right = chance.next() < 0.7 + 0.25 * learned - (elements ?? 0) * 0.04
  const own = cards[of]
  return {
    of,
    card: own ? chance.pick(own) : `${of}.${chance.below(12)}`,
    t: index * 9_000,
    right,
    ...(of !== 'exchange' &&
      of !== 'watchCall' && { ms: 1_500 + chance.below(3_000) + Math.round(2_500 * (1 - learned)) }),
    ...(!right && { cause: chance.pick(CAUSES) }),
    ...(elements !== undefined && { elements }),
  }
}
