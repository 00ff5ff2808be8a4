/**
 * "Your takeoff trim?": the pack has the pilot work a figure out before Otherseat's own value counts. A difference is
 * explained by what fits it alone, and only when the pilot's value is in (law 4).
 */

import type { Pack } from '../../pack/checklist.ts'
import type { RunEvent } from './events.ts'
import { sayAndListen } from './listening.ts'
import { ownQuestion } from './ownQuestion.ts'
import { say } from './phrases.ts'
import type { RunState, Step } from './state.ts'

/** Right: the next is asked for, or the open place put. Wrong: why it may be, and the same once more. */
export function ownValueSaid(pack: Pack, before: RunState, event: RunEvent<'ownValueSaid'>): Step {
  const { figure, isRight, causes } = event
  const label = pack.figures.declarations[figure]?.label ?? figure
  if (!isRight) {
    const state: RunState = { ...before, question: { about: 'ownValue', figure } }
    const [only, ...others] = causes
    const why = only && others.length === 0 ? say.fits(only.cause) : ''
    return sayAndListen(pack, state, [say.ownDiffers(label), why], { tone: 'attention' })
  }
  const rest = { ...before, ownToAsk: before.ownToAsk.filter((name) => name !== figure), question: undefined }
  const state = { ...rest, question: ownQuestion(rest, rest.floor) }
  return sayAndListen(pack, state, [say.agrees(label)], { prompt: true, tone: 'tick' })
}

/** The pilot does not want to: nothing is asked of this revision any more. */
export function unasked(pack: Pack, state: RunState): Step {
  return sayAndListen(pack, { ...state, ownToAsk: [], question: undefined }, [], { prompt: true })
}
