/** Combinations of situations: whether something can apply where nothing answers for it. */

import { conditionOf, type When } from './conditions.ts'
import type { PackText } from './packSchema.ts'

export type Situation = Readonly<Record<string, string>>

/** Too many situations named in one place to try them all. */
const MOST_COMBINATIONS = 4096

export function holdsIn(situation: Situation, when: When): boolean {
  return Object.entries(conditionOf(when) ?? {}).every(([name, values]) => values.includes(situation[name] ?? ''))
}

/** Every combination of the situations named in some conditions; undefined where there are too many. */
export function combinations(pack: PackText, whens: readonly When[]): Situation[] | undefined {
  const named = new Set(whens.flatMap((when) => Object.keys(when ?? {})))
  let found: Situation[] = [{}]
  for (const name of named) {
    if (!Object.hasOwn(pack.situations, name)) continue
    const options = Object.keys(pack.situations[name]?.options ?? {})
    found = found.flatMap((one) => options.map((value) => ({ ...one, [name]: value })))
    if (found.length > MOST_COMBINATIONS) return undefined
  }
  return found
}

/** "stand own, icing yes". */
export function situationWords(situation: Situation): string {
  return (
    Object.entries(situation)
      .map(([name, value]) => `${name} ${value}`)
      .join(', ') || 'any situation'
  )
}
