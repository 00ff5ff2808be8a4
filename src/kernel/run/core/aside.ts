/** What is said by the way, with nothing of the run changed. */

import type { Pack } from '../../pack/checklist.ts'
import type { Effect } from './events.ts'
import type { RunState } from './state.ts'
import { type Step, type TurnOptions, turn } from './turn.ts'

/** In a watch the ear stays open meanwhile and the limits go on: it is never deaf under its own voice. */
export function aside(pack: Pack, state: RunState, words: readonly string[], options: TurnOptions = {}): Step {
  if (state.floor.at !== 'watch') return turn(pack, state, words, options)
  const tone: Effect[] = options.tone ? [{ type: 'tone', tone: options.tone }] : []
  return { state, effects: [...tone, { type: 'speak', text: words.join(' '), role: 'otherseat' }] }
}
