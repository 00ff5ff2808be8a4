/** The ear hears nothing any more, or hears again. */

import type { Pack } from '../../pack/checklist.ts'
import { announce } from './announce.ts'
import type { ToneName } from './events.ts'
import type { RunState, Step } from './state.ts'

/**
 * Silence must not look like listening: a deaf ear says so, and what is open is put once more. To whoever types nothing is
 * said: a tone and the screen tell it.
 */
export function earChanged(pack: Pack, state: RunState, words: string, tone: ToneName): Step {
  const hasBegun = state.status === 'running' && state.figureStatus !== undefined
  if (words === '') return { state, effects: hasBegun ? [{ type: 'tone', tone }] : [] }
  return hasBegun ? announce(pack, state, [words], { prompt: true, tone }) : { state, effects: [] }
}
