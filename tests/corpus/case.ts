/** One line of a corpus: what is put to the judge, and what a person would say about it. */

import type { Judgement } from '../../src/kernel/response/model.ts'
import type { TextInput } from './judgeText.ts'

export interface Case {
  readonly input: TextInput
  /** `right`: must be accepted. `wrong`: must never be. `incomplete`: right so far, something lacks. */
  readonly truth: 'right' | 'wrong' | 'incomplete'
  /** Clearly another value, direction or state: must be `negative` for this part. */
  readonly part?: string
  /** How it was made. */
  readonly why: string
}

/** Seeded numbers, the same on every machine (mulberry32). */
export interface Random {
  next(): number
  /** 0 to below - 1. */
  below(below: number): number
  of<T>(values: readonly T[]): T
  chance(probability: number): boolean
}

export function seeded(seed: number): Random {
  let state = seed >>> 0
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
  const below = (end: number) => Math.floor(next() * end)
  return {
    next,
    below,
    of: (values) => values[below(values.length)] as (typeof values)[number],
    chance: (probability) => next() < probability,
  }
}

export type Outcome = 'asItShould' | 'wrongAccepted' | 'rightRefused' | 'notNegative'

/** What a judgement means for a case. */
export function outcomeOf(each: Case, judgement: Judgement): Outcome {
  if (each.truth === 'right') return judgement.verdict === 'correct' ? 'asItShould' : 'rightRefused'
  if (judgement.verdict === 'correct') return 'wrongAccepted'
  if (each.part === undefined) return 'asItShould'
  const named = judgement.parts.some((part) => part.name === each.part && part.state === 'wrong')
  return judgement.verdict === 'negative' && named ? 'asItShould' : 'notNegative'
}
