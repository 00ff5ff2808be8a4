/** When something of a pack applies. */

import type { Value } from '../kinds/kind.ts'
import { ownOf } from '../own.ts'

/** A number between ends. */
export interface Size {
  readonly below?: number
  readonly above?: number
  readonly atLeast?: number
  readonly atMost?: number
}

/** All of it must hold. */
export interface Condition {
  /** Situations and figures by their names: each has one of these values, or is of this size. */
  readonly each?: Readonly<Record<string, readonly string[] | Size>>
  readonly any?: readonly Condition[]
  readonly all?: readonly Condition[]
  readonly not?: Condition
}

/** What conditions are held against: situations, and the spoken values of figures. */
export interface Ground {
  readonly situation: Readonly<Record<string, string>>
  readonly values: Readonly<Record<string, Value>>
}

/** A condition on a figure that has no value yet counts as met: what hangs on it waits for the figure. */
export function holds(condition: Condition | undefined, ground: Ground): boolean {
  return condition === undefined || holdsSurely(condition, ground) !== false
}

/** Undefined where a figure without a value decides. */
export function holdsSurely(condition: Condition, ground: Ground): boolean | undefined {
  const { each = {}, any, all = [], not } = condition
  const inner = not && holdsSurely(not, ground)
  return every([
    ...Object.entries(each).map(([name, demand]) => meets(demand, valueIn(name, ground))),
    ...all.map((one) => holdsSurely(one, ground)),
    ...(any ? [some(any.map((one) => holdsSurely(one, ground)))] : []),
    ...(not ? [inner === undefined ? undefined : !inner] : []),
  ])
}

type Known = boolean | undefined
const every = (all: readonly Known[]): Known =>
  all.includes(false) ? false : all.includes(undefined) ? undefined : true
const some = (all: readonly Known[]): Known => (all.includes(true) ? true : all.includes(undefined) ? undefined : false)

const valueIn = (name: string, { situation, values }: Ground): Value | undefined =>
  ownOf(situation, name) ?? ownOf(values, name)

export function meets(demand: readonly string[] | Size, value: Value | undefined): Known {
  if (value === undefined) return undefined
  if (isValues(demand)) return demand.includes(String(value))
  const { below = Infinity, above = -Infinity, atLeast = -Infinity, atMost = Infinity } = demand
  const number = Number(value)
  return number < below && number > above && number >= atLeast && number <= atMost
}

export const isValues = (demand: readonly string[] | Size): demand is readonly string[] => Array.isArray(demand)

/** Names of all situations and figures that a condition hangs on. */
export function namesIn(condition: Condition | undefined): string[] {
  if (!condition) return []
  const { each = {}, any = [], all = [], not } = condition
  return [...Object.keys(each), ...[...any, ...all, ...(not ? [not] : [])].flatMap(namesIn)]
}
