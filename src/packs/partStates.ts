/** States of an item, be they written for all of the answer or for each of its parts. */

import type { PartStates } from '../kernel/response/model.ts'
import type { ItemText } from './proceduresSchema.ts'

type States = ItemText['states']

/** All of them in one row. */
export function statesIn(states: States): readonly (readonly string[])[] | undefined {
  return states && (Array.isArray(states) ? states : Object.values(states).flat())
}

/** By the tag of the part; undefined where they are for all of the answer. */
export function partStatesIn(states: States): PartStates | undefined {
  return states && !Array.isArray(states) ? states : undefined
}
