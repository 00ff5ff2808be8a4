/** What an instructor needs besides what a pilot sees: what would be right at the open item, and the places that are ahead. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import { agenda, findItem, itemsOf, saidFigures } from '../../kernel/pack/place.ts'
import { isClosed } from '../../kernel/run/core/progress.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { turnState } from '../../kernel/run/talk/talk.ts'
import { shownValue } from '../view/readWords.ts'

/** Values that the open item asks for, by name. */
export function valuesAsked(pack: Pack, run: RunState): readonly { readonly label: string; readonly value: string }[] {
  const { floor, values } = run
  if (floor.at !== 'item') return []
  return saidFigures(findItem(pack, floor.item).item, run).flatMap((name) => {
    const value = values[name]
    const label = pack.figures.declarations[name]?.label ?? name
    return value === undefined ? [] : [{ label, value: shownValue(pack, name, value) }]
  })
}

export interface PlaceAhead {
  readonly id: string
  readonly name: string
}

/** Items and activities that the run has still to come to, in their order; a list with its open items. */
export function placesAhead(
  pack: Pack,
  run: RunState,
): readonly (PlaceAhead & { readonly items: readonly PlaceAhead[] })[] {
  const here = run.floor.at === 'item' ? run.floor.item : undefined
  return agenda(pack, run).flatMap(({ activity }) => {
    const { id, name, type } = activity
    if (type === 'list') {
      const items = itemsOf(activity, run)
        .filter((item) => item.id !== here && !isClosed(run, item.id))
        .map((item) => ({ id: item.id, name: item.challenge }))
      return items.length === 0 ? [] : [{ id, name, items }]
    }
    const isOver = type === 'exchange' && activity.turns.every((turn) => turnState(run, turn.id).status === 'done')
    return type === 'flow' || isOver ? [] : [{ id, name, items: [] }]
  })
}
