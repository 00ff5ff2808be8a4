/** Figures like those in force and other than they, so that a moment done again is not answered from memory. */

import type { Value } from '../kinds/kind.ts'
import { isError } from '../problem.ts'
import { type Seeded, seeded } from '../seeded.ts'
import { compute } from './compute.ts'
import { drawNumber, isFavoured, withSheets } from './deal.ts'
import type { Inputs } from './model.ts'
import type { DealRules, FigureModel } from './pack.ts'

export interface Wanted {
  /** Figures of which one is to be another: those of the open item, or all that is read back. */
  readonly figures: readonly string[]
  /** What stations have said of this departure stays. */
  readonly kept: readonly string[]
}

/** Draws before the rules are given up as too narrow. */
const MOST_DRAWS = 400

/**
 * One load, or one value, drawn anew by the pack's rules for departures, with sheets that state what follows from it. The same
 * seed draws the same. Undefined where the pack has no rules, or they leave nothing that is sound.
 */
export function otherFigures(
  model: FigureModel,
  inputs: Inputs,
  { figures, kept }: Wanted,
  seed: number,
): Inputs | undefined {
  const rules = model.basis?.deal
  if (!rules) return undefined
  const chance = seeded(seed)
  const before = compute(model, inputs)
  const own = Object.keys(rules.values).filter((name) => figures.includes(name) && !kept.includes(name))
  const { stated, settled: _, ...rest } = inputs
  for (let draw = 0; draw < MOST_DRAWS; draw++) {
    const bare: Inputs = { ...rest, label: 'other figures', ...oneOther(rules, inputs, own, chance) }
    const after = compute(model, bare)
    if (after.problems.some(isError) || !isFavoured(rules, after)) continue
    const isKept = kept.every((name) => before.figures[name]?.value === after.figures[name]?.value)
    if (!isKept || figures.every((name) => before.figures[name]?.value === after.figures[name]?.value)) continue
    const honest = withSheets(model, bare, after, Object.keys(stated ?? {}))
    if (!compute(model, honest).problems.some(isError)) return honest
  }
  return undefined
}

function oneOther(
  rules: DealRules,
  { loads, values }: Inputs,
  own: readonly string[],
  chance: Seeded,
): Pick<Inputs, 'loads' | 'values'> {
  const at = chance.pick([...own, ...Object.keys(rules.loads)])
  const load = rules.loads[at]
  if (load && !own.includes(at)) return { values, loads: { ...loads, [at]: drawNumber(load, chance) } }
  const rule = rules.values[at] ?? []
  const drawn: Value = 'min' in rule ? drawNumber(rule, chance) : (chance.pick(rule) ?? values[at] ?? '')
  return { loads, values: { ...values, [at]: drawn } }
}
