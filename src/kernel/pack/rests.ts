/** What an item rests on: change one of these figures and what was answered is open again. */

import type { Ground } from '../figures/condition.ts'
import type { Item, Pack } from './checklist.ts'
import { listsOf, saidFigures } from './place.ts'

/** Figures in the response that applies in this situation, and those that the pack names besides. */
export function restsOf(item: Item, ground: Ground): string[] {
  return [...new Set([...saidFigures(item, ground), ...item.restsOn])]
}

/** Names of all figures with a value that are said in some item, in any situation. */
export function readBackOf(pack: Pack): string[] {
  const items = listsOf(pack).flatMap(({ entries }) => entries.filter((entry) => entry.type === 'item'))
  const said = items.flatMap(({ responses }) => responses.flatMap(({ response }) => response.figures))
  return [...new Set(said)].filter((name) => !pack.figures.declarations[name]?.read)
}
