/** Other figures for a moment that is done again: one of those that are to be said there is another. */

import type { Inputs } from '../../kernel/figures/model.ts'
import { otherFigures } from '../../kernel/figures/otherFigures.ts'
import { findItem, saidFigures } from '../../kernel/pack/place.ts'
import { readBackOf } from '../../kernel/pack/rests.ts'
import { nextEdition } from '../../kernel/papers/corrected.ts'
import { figuresOfStations } from '../../kernel/run/talk/script.ts'
import type { RunSoFar } from './storedRun.ts'

/** Undefined where the pack has no rules, or no others are sound: the moment is done on the figures that it had. */
export function figuresAnew({ pack, state, revisions }: RunSoFar, seed: number): Inputs | undefined {
  const inputs = revisions.at(-1)?.inputs
  if (!inputs) return undefined
  const { floor } = state
  const kept = state.script ? figuresOfStations(pack) : []
  const said = floor.at === 'item' ? saidFigures(findItem(pack, floor.item).item, state) : []
  const draw = (figures: readonly string[]) => otherFigures(pack.figures, inputs, { figures, kept }, seed)
  const drawn =
    (said.length > 0 ? draw(said) : undefined) ?? draw(readBackOf(pack).filter((name) => !kept.includes(name)))
  // On papers of their own: those of before stay on the pile, as ever.
  return drawn && nextEdition(pack, drawn)
}
