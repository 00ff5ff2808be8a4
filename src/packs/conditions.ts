/** Conditions and interlocks of procedures.yaml -> as the kernel knows them. */

import type { Condition, Interlock } from '../kernel/pack/condition.ts'
import { exactly } from './present.ts'
import type { ItemText } from './proceduresSchema.ts'

export type When = ItemText['when']

export function conditionOf(when: When): Condition | undefined {
  return when && Object.fromEntries(Object.entries(when).map(([name, values]) => [name, [values].flat()]))
}

const asInterlock = exactly<Interlock>()

export function interlocksOf(interlocks: ItemText['interlocks']): Interlock[] | undefined {
  return interlocks?.map((interlock) => asInterlock(interlock))
}
