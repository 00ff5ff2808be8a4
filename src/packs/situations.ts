/** Whether there is a situation in which something applies and nothing answers for it. */

import { MOST_PARTS } from '../kernel/bounds.ts'
import { RADIOS } from '../kernel/kinds/radio.ts'
import { ownOf } from '../kernel/own.ts'
import { conditionOf, type When } from './conditions.ts'
import type { PackText } from './packSchema.ts'

/** What a situation may be. That of the phraseology, `radio`, every pack has. */
export const optionsOf = ({ situations }: PackText, name: string): readonly string[] =>
  name === 'radio' ? RADIOS : Object.keys(ownOf(situations, name)?.options ?? {})

/** What each situation may be, by its name; one that is not among them may be anything. */
type Part = ReadonlyMap<string, readonly string[]>

/**
 * A situation in which all of some conditions hold, and of none of the cases do all of its conditions; in words
 * ("stand own, icing yes"). Cases are cut out one by one of what is left, and what remains at the end is open. Not
 * found where it takes too many parts to tell.
 */
export function openSituation(
  pack: PackText,
  all: readonly When[],
  cases: readonly (readonly When[])[],
): string | undefined {
  const valuesIn = (part: Part, name: string) => part.get(name) ?? optionsOf(pack, name)
  let partsLeft = MOST_PARTS

  function partOf(whens: readonly When[]): Part {
    const part = new Map<string, readonly string[]>()
    for (const [name, values] of whens.flatMap((when) => Object.entries(conditionOf(when) ?? {}))) {
      part.set(
        name,
        valuesIn(part, name).filter((value) => values.includes(value)),
      )
    }
    return part
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

  const whole = partOf(all)
  if ([...whole.values()].some((values) => values.length === 0)) return undefined
  const open = untouched(whole, cases.map(partOf))
  return open && wordsOf([...open].filter(([name, values]) => values.length < optionsOf(pack, name).length))
}

function wordsOf(narrowed: readonly (readonly [string, readonly string[]])[]): string {
  return narrowed.map(([name, [value]]) => `${name} ${value}`).join(', ') || 'any situation'
}
