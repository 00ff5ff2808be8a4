/** Words that were begun before the present floor was taken, or before figures changed on it: they are judged against nothing. */

import type { EventBody } from '../run/core/events.ts'
import { overheard, type Utterance } from './utterance.ts'

/** They were begun before what is open now was. */
export const isLate = ({ heard, state }: Utterance): boolean => heard.listenId < state.floorListenId

/** Kept with the item that they were said to, where there was one. */
export function lateWords(utterance: Utterance): EventBody {
  const { state, evidence } = utterance
  const { floor } = state
  const isRevised = state.revisedListenId === state.floorListenId
  const item = isRevised ? state.revisedItem : floor.at === 'item' ? floor.item : undefined
  if (item === undefined) return overheard(utterance)
  return { type: 'voided', item, evidence, because: isRevised ? 'figuresChanged' : 'late' }
}
