/** What is said once a run, where its first start comes up: what the hands do meanwhile, and whose the limits are. */

import type { Watch } from '../../pack/checklist.ts'
import { say } from '../core/phrases.ts'
import type { RunState } from '../core/state.ts'

const holdOf = ({ hold }: Watch) => (hold === undefined ? [] : [say.hold(hold)])
const withSaid = (state: RunState, words: readonly string[]): RunState => ({
  ...state,
  saidOnce: [...new Set([...state.saidOnce, ...words])],
})

/** What of it was not said yet; and the state in which it was. */
export function sayOnce(state: RunState, watch: Watch): { readonly state: RunState; readonly words: string[] } {
  const words = [...holdOf(watch), say.limits()].filter((text) => !state.saidOnce.includes(text))
  return { state: withSaid(state, words), words }
}

/** The start was begun before anything could be said: the hand is on the selector already. */
export const heldAlready = (state: RunState, watch: Watch): RunState => withSaid(state, holdOf(watch))
