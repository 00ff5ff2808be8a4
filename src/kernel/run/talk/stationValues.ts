/**
 * What a station says later than the papers: another wind, another altimeter setting. Such a value is kept only if it
 * breaks no limit and moves nothing else that an item says, so that what a departure has buried stays where it is.
 */

import { compute } from '../../figures/compute.ts'
import type { FigureSet, Inputs } from '../../figures/model.ts'
import type { FigureDeclaration, LaterRule } from '../../figures/pack.ts'
import type { Value } from '../../kinds/kind.ts'
import { scaleOf, wrapped } from '../../kinds/table.ts'
import { roundTo } from '../../numbers/rounding.ts'
import type { Pack } from '../../pack/checklist.ts'
import { readBackOf } from '../../pack/rests.ts'
import type { Seeded } from '../../seeded.ts'

/**
 * Later values of the figures that some station says, and what is computed from them and said as well. `others` are
 * revisions that may come in before or after the station speaks.
 */
export function drawStationValues(
  pack: Pack,
  inputs: Inputs,
  saidByStations: readonly string[],
  chance: Seeded,
  others: readonly Inputs[] = [],
): Record<string, Value> {
  const readBack = readBackOf(pack)
  const fixed = [inputs, ...others].map((one) => laidOver(one, { ...inputs.said }))
  const before = fixed.map((one) => compute(pack.figures, one))
  let drawn: Record<string, Value> = {}
  for (const declaration of saidByStations.flatMap((name) => pack.figures.declarations[name] ?? [])) {
    const { name, later } = declaration
    const value = inputs.values[name]
    if (!later || typeof value !== 'number' || inputs.said?.[name] !== undefined) continue
    const unmoved = readBack.filter((one) => ![name, ...Object.keys(drawn)].some((moved) => isSame(pack, one, moved)))
    const found = shuffled(laterThan(declaration, later, value), chance).find((other) =>
      fixed.every((one, index) => {
        const after = compute(pack.figures, laidOver(one, { ...drawn, [name]: other }))
        return isQuiet(before[index] as FigureSet, after, unmoved)
      }),
    )
    if (found !== undefined) drawn = { ...drawn, [name]: found }
  }
  const papers = compute(pack.figures, laidOver(inputs, {})).figures
  const after = compute(pack.figures, laidOver(inputs, { ...inputs.said, ...drawn })).figures
  const changed = saidByStations.flatMap((name): [string, Value][] => {
    const value = after[name]?.value
    return value !== undefined && value !== papers[name]?.value ? [[name, value]] : []
  })
  return Object.fromEntries(changed)
}

/** The figure itself, or the same in another unit. */
function isSame(pack: Pack, name: string, of: string): boolean {
  const { derived } = pack.figures.declarations[name] ?? {}
  return name === of || (derived?.by === 'same' && derived.uses.includes(of))
}

/** Without what sheets state beside our own values: stations do not go by it. */
function laidOver({ stated: _, settled: __, ...inputs }: Inputs, values: Readonly<Record<string, Value>>): Inputs {
  return { ...inputs, values: { ...inputs.values, ...values } }
}

/** Every other value that is near enough; a heading goes on from 360 to 001. */
function laterThan({ spec, plausible }: FigureDeclaration, later: LaterRule, value: number): number[] {
  const { most, step, min: least = -Infinity } = later
  const { min = -Infinity, max = Infinity } = scaleOf(spec) ?? {}
  const from = Math.max(least, min, plausible?.min ?? -Infinity)
  const to = Math.min(max, plausible?.max ?? Infinity)
  const steps = Array.from({ length: Math.floor(most / step + 1e-9) }, (_, index) => (index + 1) * step)
  return steps
    .flatMap((by) => [value - by, value + by])
    .map((other) => roundTo(other, { step: Math.min(step, 1), direction: 'nearest' }))
    .map((other) => wrapped(spec, other))
    .filter((other) => other >= from && other <= to)
}

function shuffled(values: readonly number[], chance: Seeded): number[] {
  const left = [...values]
  return values.map(() => left.splice(chance.below(left.length), 1)[0] as number)
}

/** No new problem, and the same to say in every one of these. */
function isQuiet(before: FigureSet, after: FigureSet, others: readonly string[]): boolean {
  return (
    after.problems.length <= before.problems.length &&
    others.every((name) => before.figures[name]?.value === after.figures[name]?.value)
  )
}
