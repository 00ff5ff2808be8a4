/** What follows from a response and the kinds of its figures, made once for each; nothing of it depends on a value. */

import type { KindSpec, Specs } from '../kinds/kind.ts'
import { ownOf } from '../own.ts'
import type { Response } from './response.ts'

/** A pack uses a response with one set of kinds; more only come from outside, line by line. */
const MOST_KEPT = 60

/** The same result for the same response with figures of the same kinds, and further arguments that hold the same. */
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

/** What of a figure is its value, and nothing of its kind. */
const VALUE_FIELDS: ReadonlySet<string> = new Set(['value', 'accept'])

function isSameShape(one: KindSpec | undefined, other: KindSpec | undefined): boolean {
  if (one === other) return true
  if (one?.kind !== other?.kind || !one || !other) return false
  const names = Object.keys({ ...one, ...other }).filter((name) => !VALUE_FIELDS.has(name)) as (keyof KindSpec)[]
  return names.every((name) => isAlike(one[name], other[name]))
}

/** Equal in all that they hold. */
function isAlike(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true
  if (typeof one !== 'object' || typeof other !== 'object' || !one || !other) return false
  const [names, others] = [Object.keys(one), Object.keys(other)]
  return (
    names.length === others.length &&
    names.every((name) => isAlike(one[name as keyof typeof one], other[name as keyof typeof other]))
  )
}
