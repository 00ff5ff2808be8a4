/** Whether there is a situation, with figures of some size, in which something applies and nothing answers for it. */

import { MOST_PARTS } from '../kernel/bounds.ts'
import { type Condition, isValues, meets, type Size } from '../kernel/figures/condition.ts'
import { kindOf } from '../kernel/kinds/kind.ts'
import { RADIOS } from '../kernel/kinds/radio.ts'
import { ownOf } from '../kernel/own.ts'
import { measureOf, specOf } from './buildFigures.ts'
import { conditionOf, type When } from './conditions.ts'
import type { FiguresText } from './figuresSchema.ts'
import type { PackText } from './packSchema.ts'

/** What a situation may be. That of the phraseology, `radio`, every pack has. */
export const optionsOf = ({ situations }: PackText, name: string): readonly string[] =>
  name === 'radio' ? RADIOS : Object.keys(ownOf(situations, name)?.options ?? {})

/** What conditions are about. */
export interface Named {
  readonly pack: PackText
  readonly figures: FiguresText['figures'] | undefined
}

/** What each situation or figure may be, by its name; one that is not among them may be anything. */
type Part = ReadonlyMap<string, readonly string[]>

/**
 * A situation in which all of some conditions hold, and of none of the cases do all of its conditions; in words
 * ("stand own, icing yes"). Cases are cut out one by one of what is left, and what remains at the end is open. Not
 * found where it takes too many parts to tell.
 */
export function openSituation(
  named: Named,
  all: readonly When[],
  cases: readonly (readonly When[])[],
): string | undefined {
  const conditions = (whens: readonly When[]): Condition => ({ all: whens.flatMap((when) => conditionOf(when) ?? []) })
  const [wanted, answered] = [conditions(all), cases.map(conditions)]
  const values = valuesOf(named, [wanted, ...answered])
  const everyOf = (name: string) => values.get(name) ?? []
  const valuesIn = (part: Part, name: string) => part.get(name) ?? everyOf(name)
  let partsLeft = MOST_PARTS

  /** Both at once; undefined where nothing is. */
  function both(one: Part, other: Part): Part | undefined {
    const joined = new Map(one)
    for (const [name, own] of other) {
      const shared = valuesIn(joined, name).filter((value) => own.includes(value))
      if (shared.length === 0) return undefined
      joined.set(name, shared)
    }
    return joined
  }

  /** The parts in any of which a condition holds, or in which it does not. */
  function partsOf({ each = {}, any, all = [], not }: Condition, isSo = true): Part[] {
    const single = Object.entries(each).map(([name, demand]) => {
      const met = everyOf(name).filter((value) => (meets(demand, value) === true) === isSo)
      return met.length === 0 ? [] : [new Map([[name, met]])]
    })
    const inner = [
      ...single,
      ...all.map((one) => partsOf(one, isSo)),
      ...(any ? [isSo ? any.flatMap((one) => partsOf(one)) : product(any.map((one) => partsOf(one, false)))] : []),
      ...(not ? [partsOf(not, !isSo)] : []),
    ]
    return isSo ? product(inner) : inner.flat()
  }

  function product(each: readonly (readonly Part[])[]): Part[] {
    return each.reduce<Part[]>(
      (heads, parts) => {
        partsLeft -= heads.length * parts.length
        return partsLeft <= 0 ? [] : heads.flatMap((head) => parts.flatMap((part) => both(head, part) ?? []))
      },
      [new Map()],
    )
  }

  /** A part of this one that none of the cases from here on touches. */
  function untouched(part: Part, taken: readonly Part[]): Part | undefined {
    for (const [index, one] of taken.entries()) {
      if (partsLeft-- <= 0) return undefined
      const touches = [...one].every(([name, values]) => valuesIn(part, name).some((value) => values.includes(value)))
      if (!touches) continue
      let inside = part
      for (const [name, values] of one) {
        const outside = valuesIn(inside, name).filter((value) => !values.includes(value))
        const rest = taken.slice(index + 1)
        const found = outside.length > 0 ? untouched(new Map([...inside, [name, outside]]), rest) : undefined
        if (found) return found
        inside = new Map([...inside, [name, valuesIn(inside, name).filter((value) => values.includes(value))]])
      }
      return undefined
    }
    return part
  }

  const taken = answered.flatMap((one) => partsOf(one))
  for (const whole of partsOf(wanted)) {
    const open = partsLeft > 0 ? untouched(whole, taken) : undefined
    if (open) return wordsOf([...open].filter(([name, values]) => values.length < everyOf(name).length))
  }
  return undefined
}

function wordsOf(narrowed: readonly (readonly [string, readonly string[]])[]): string {
  return narrowed.map(([name, [value]]) => `${name} ${value}`).join(', ') || 'any situation'
}

/** All that each situation and figure may be; of a number one between each two that conditions name, and those. */
function valuesOf({ pack, figures }: Named, conditions: readonly Condition[]): Part {
  const demands = new Map<string, (readonly string[] | Size)[]>()
  const collect = ({ each = {}, any = [], all = [], not }: Condition): void => {
    for (const [name, demand] of Object.entries(each)) demands.set(name, [...(demands.get(name) ?? []), demand])
    for (const one of [...any, ...all, ...(not ? [not] : [])]) collect(one)
  }
  for (const condition of conditions) collect(condition)
  return new Map(
    [...demands].map(([name, own]) => {
      const options = optionsOf(pack, name)
      return [name, options.length > 0 ? options : figureValues(ownOf(figures, name), own)]
    }),
  )
}

function figureValues(
  figure: FiguresText['figures'][string] | undefined,
  demands: readonly (readonly string[] | Size)[],
): readonly string[] {
  const texts = demands.flatMap((demand) => (isValues(demand) ? demand : []))
  if (!figure) return texts
  const spec = specOf(figure)
  const options = kindOf(spec).options?.(spec)
  if (options) return Object.keys(options)
  if (measureOf(figure) === undefined) return [...new Set([...texts, 'other'])]
  const named = demands.flatMap((demand) =>
    isValues(demand) ? demand.map(Number) : (Object.values(demand) as number[]),
  )
  const ends = [...new Set(named)].sort((one, other) => one - other)
  const between = ends.slice(1).map((end, index) => (end + (ends[index] ?? end)) / 2)
  return [(ends[0] ?? 0) - 1, ...ends, ...between, (ends.at(-1) ?? 0) + 1].map(String)
}
