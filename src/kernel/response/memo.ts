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
      (one) => one.specs.every((spec, index) => isSameShape(spec, own[index])) && isAlike(one.further, further),
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
const VALUE_FIELDS: ReadonlySet<string> = new Set(['value', 'accept', 'read'])

function isSameShape(one: KindSpec | undefined, other: KindSpec | undefined): boolean {
  if (one === other) return true
  return one?.kind === other?.kind && one !== undefined && other !== undefined && has(one, other) && has(other, one)
}

/** True where each field of one kind is the same in the other. */
function has(one: KindSpec, other: KindSpec): boolean {
  for (const name in one) {
    if (!VALUE_FIELDS.has(name) && !isAlike(one[name as keyof KindSpec], other[name as keyof KindSpec])) return false
  }
  return true
}

/** Equal in all their entries. Written without copies: it runs many times for each answer. */
function isAlike(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true
  if (typeof one !== 'object' || typeof other !== 'object' || !one || !other) return false
  if (Array.isArray(one)) {
    if (!Array.isArray(other) || one.length !== other.length) return false
    return one.every((entry, index) => isAlike(entry, other[index]))
  }
  const names = Object.keys(one)
  return (
    names.length === Object.keys(other).length &&
    names.every((name) => isAlike(one[name as keyof typeof one], other[name as keyof typeof other]))
  )
}
