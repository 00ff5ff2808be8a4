/** How often the pilot is asked to say something again: speech in the room that answers nothing must not set off one after another. */

import type { Pack } from '../../pack/checklist.ts'
import type { By } from './events.ts'
import type { RunState } from './state.ts'
import { type Step, type TurnOptions, turn } from './turn.ts'

const ASK_AGAIN_EVERY_MS = 8_000

/** Aloud once in eight seconds; undefined where it may be said now. A typed answer is always answered in words. */
export function tooSoonToAsk(pack: Pack, state: RunState, by: By): Step | undefined {
  const { askedAgainAt, t } = state
  const isTooSoon = by === 'voice' && askedAgainAt !== undefined && t - askedAgainAt < ASK_AGAIN_EVERY_MS
  return isTooSoon ? turn(pack, state, [], { tone: 'soft' }) : undefined
}

export function askAgain(pack: Pack, state: RunState, words: readonly string[], options: TurnOptions = {}): Step {
  return turn(pack, { ...state, askedAgainAt: state.t }, words, options)
}
