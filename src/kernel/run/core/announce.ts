/** What is said by the way, with nothing of the run changed. */

import type { Pack } from '../../pack/checklist.ts'
import { runningWatch } from '../watch/watchTiming.ts'
import type { Effect } from './events.ts'
import { type SpeechOptions, sayAndListen } from './listening.ts'
import type { RunState, Step } from './state.ts'

/** What is to be said while an engine is being started: a tone at once, the words when that is over. Undefined at other times. */
export function afterWatch(pack: Pack, state: RunState, words: readonly string[]): Step | undefined {
  if (!runningWatch(pack, state)) return undefined
  return {
    state: { ...state, wordsAfterWatch: [...state.wordsAfterWatch, ...words] },
    effects: [{ type: 'tone', tone: 'attention' }],
  }
}

/** In a watch the ear stays open meanwhile and the limits go on: it is never deaf under its own voice. */
export function announce(pack: Pack, state: RunState, words: readonly string[], options: SpeechOptions = {}): Step {
  if (state.floor.at !== 'watch') return sayAndListen(pack, state, words, options)
  const tone: Effect[] = options.tone ? [{ type: 'tone', tone: options.tone }] : []
  return { state, effects: [...tone, { type: 'speak', text: words.join(' '), role: 'otherseat' }] }
}
