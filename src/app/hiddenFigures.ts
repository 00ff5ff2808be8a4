/**
 * Which figures the screen hides while a run is on (law 4): those that an item still has to read back,
 * and those from which such a value could be copied.
 */

import type { FigureDeclaration } from '../kernel/figures/pack.ts'
import type { Pack } from '../kernel/run/checklist.ts'
import { itemsOf, listsOf } from '../kernel/run/place.ts'
import { restsOf } from '../kernel/run/rests.ts'
import type { RunState } from '../kernel/run/state.ts'
import { itemState } from '../kernel/run/turn.ts'
import { dimensionOf } from '../kernel/units.ts'

/** `own`: an item reads it back, its value can be asked for. `near`: it only gives such a value away. */
export type Hidden = 'own' | 'near'

/** Names of the figures that a computed one takes. */
export function takenBy({ derived }: FigureDeclaration): string[] {
  const operands = [...Object.values(derived?.takes ?? {}), ...Object.values(derived?.at ?? {})].flat()
  return operands.filter((operand) => typeof operand === 'string')
}

/** Figures that some item of the pack rests on, whether its value was given or not. */
export function figuresRead(pack: Pack, situation: RunState['situation']): ReadonlySet<string> {
  const items = listsOf(pack).flatMap((list) => itemsOf(list, situation))
  return new Set(items.flatMap((item) => restsOf(item, situation)))
}

/** Empty while no run is on. */
export function hiddenFigures(pack: Pack, run: RunState | undefined): ReadonlyMap<string, Hidden> {
  const hidden = new Map<string, Hidden>()
  if (run?.status !== 'running') return hidden
  for (const item of listsOf(pack).flatMap((list) => itemsOf(list, run.situation))) {
    if (itemState(run, item.id).given) continue
    for (const name of restsOf(item, run.situation)) hidden.set(name, 'own')
  }
  for (let grown = -1; grown !== hidden.size; ) {
    grown = hidden.size
    for (const [one, other] of links(pack)) {
      if (hidden.has(one) && !hidden.has(other)) hidden.set(other, 'near')
      if (hidden.has(other) && !hidden.has(one)) hidden.set(one, 'near')
    }
  }
  return hidden
}

/** Pairs of which one is computed from the other in the same dimension: what one shows, the other nearly shows. */
function links(pack: Pack): [string, string][] {
  const { declarations } = pack.figures
  return Object.values(declarations).flatMap((figure) =>
    takenBy(figure).flatMap((name): [string, string][] => {
      const taken = declarations[name]
      if (!taken?.measure || !figure.measure || taken.constant !== undefined) return []
      return dimensionOf(taken.measure) === dimensionOf(figure.measure) ? [[figure.name, name]] : []
    }),
  )
}
