/** How often the pilot is asked to say something again: speech in the room that answers nothing must not set off one after another. */

import type { Pack } from '../../pack/checklist.ts'
import type { By } from './events.ts'
import { type SpeechOptions, sayAndListen } from './listening.ts'
import type { RunState, Step } from './state.ts'

const ASK_AGAIN_EVERY_MS = 8_000

/** Aloud once in eight seconds; undefined where it may be said now. A typed answer is always answered in words. */
export function tooSoonToAsk(pack: Pack, state: RunState, by: By): Step | undefined {
  const { askedAgainAt, t } = state
  const isTooSoon = by === 'voice' && askedAgainAt !== undefined && t - askedAgainAt < ASK_AGAIN_EVERY_MS
  return isTooSoon ? sayAndListen(pack, state, [], { tone: 'soft' }) : undefined
}

/** Asks for it again and notes when. */
export function askAgain(pack: Pack, state: RunState, words: readonly string[], options: SpeechOptions = {}): Step {
  return sayAndListen(pack, { ...state, askedAgainAt: state.t }, words, options)
}
