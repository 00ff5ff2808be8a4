/** Keeps what follows from a response and the kinds of its figures. Nothing of it depends on a value. */

import type { KindSpec, Specs } from '../kinds/kind.ts'
import { ownOf } from '../own.ts'
import type { Response } from './response.ts'

/** In a pack a response has one set of kinds; more come only from the command line. */
const MOST_KEPT = 60

/** `make`, run once for each response with figures of the same kinds and equal further arguments. */
export function madeOnce<Further extends readonly unknown[], Made>(
  make: (response: Response, specs: Specs, ...further: Further) => Made,
): (response: Response, specs: Specs, ...further: Further) => Made {
  const made = new WeakMap<Response, { specs: OwnSpecs; further: Further; result: Made }[]>()
  return (response, specs, ...further) => {
    const own = response.figures.map((name) => ownOf(specs, name))
    const kept = made.get(response) ?? []
    const known = kept.find(
      (one) => isAlike(one.further, further) && one.specs.every((spec, index) => isSameShape(spec, own[index])),
    )
    if (known) return known.result
    const result = make(response, specs, ...further)
    if (kept.length >= MOST_KEPT) kept.length = 0
    kept.push({ specs: own, further, result })
    made.set(response, kept)
    return result
  }
}

type OwnSpecs = readonly (KindSpec | undefined)[]

/** Fields that belong to a figure's value, not to its kind. */
const VALUE_FIELDS: ReadonlySet<string> = new Set(['value', 'accept'])

function isSameShape(one: KindSpec | undefined, other: KindSpec | undefined): boolean {
  if (one === other) return true
  if (one?.kind !== other?.kind || !one || !other) return false
  const names = Object.keys({ ...one, ...other }).filter((name) => !VALUE_FIELDS.has(name)) as (keyof KindSpec)[]
  return names.every((name) => isAlike(one[name], other[name]))
}

/** Equal in all their entries. */
function isAlike(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true
  if (typeof one !== 'object' || typeof other !== 'object' || !one || !other) return false
  const [names, others] = [Object.keys(one), Object.keys(other)]
  return (
    names.length === others.length &&
    names.every((name) => isAlike(one[name as keyof typeof one], other[name as keyof typeof other]))
  )
}
