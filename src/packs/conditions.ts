/** Conditions and interlocks of procedures.yaml -> as the kernel knows them. */

import type { Condition, Size } from '../kernel/figures/condition.ts'
import type { Interlock } from '../kernel/pack/condition.ts'
import { exactly, present } from './present.ts'
import type { ItemText } from './proceduresSchema.ts'
import type { WhenText } from './schemaTerms.ts'

export type When = WhenText | undefined

/** The words that join conditions. */
const JOINTS = new Set(['any', 'all', 'not'])
export const isJoint = (name: string): boolean => JOINTS.has(name)

const asCondition = exactly<Condition>()

export function conditionOf(when: When): Condition | undefined {
  if (!when) return undefined
  const { any, all, not } = when
  const each = Object.entries(when).flatMap(([name, demand]) =>
    isJoint(name) || demand === undefined ? [] : [[name, demandOf(demand as string | string[] | Size)] as const],
  )
  return asCondition({
    each: each.length === 0 ? undefined : Object.fromEntries(each),
    any: any?.map(conditionIn),
    all: all?.map(conditionIn),
    not: not && conditionIn(not),
  })
}

const conditionIn = (when: WhenText): Condition => conditionOf(when) ?? {}

function demandOf(demand: string | string[] | Size): readonly string[] | Size {
  return typeof demand === 'string' || Array.isArray(demand) ? [demand].flat() : present(demand)
}

const asInterlock = exactly<Interlock>()

export function interlocksOf(interlocks: ItemText['interlocks']): Interlock[] | undefined {
  return interlocks?.map((interlock) => asInterlock(interlock))
}
