/** The list that is to be called next, in the order of the pack. */

import type { List, Pack } from '../../pack/checklist.ts'
import { agenda } from '../../pack/place.ts'
import { listState } from './progress.ts'
import type { RunState } from './state.ts'

export function dueList(pack: Pack, state: RunState): List | undefined {
  return agenda(pack, state)
    .flatMap(({ activity }) => (activity.type === 'list' ? [activity] : []))
    .filter(({ id, anytime }) => !anytime || listState(state, id).called)
    .find((list) => !listState(state, list.id).complete && !listState(state, list.id).suspended)
}
