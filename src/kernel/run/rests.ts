/** What an item rests on: change one of these figures and what was answered is open again. */

import type { Item } from './checklist.ts'
import { saidFigures } from './place.ts'

/** Figures in the response that applies in this situation, and those that the pack names besides. */
export function restsOf(item: Item, situation: Readonly<Record<string, string>>): string[] {
  return [...new Set([...saidFigures(item, situation), ...item.restsOn])]
}
