/** What the key of a demonstration does: it stops everything, goes on, or has the answer judged that the room was asked about. */

import type { Pack } from '../pack/checklist.ts'
import type { EventBody } from '../run/core/events.ts'
import type { RunState } from '../run/core/state.ts'
import { interpret } from './interpret.ts'

export function freezePressed(pack: Pack, state: RunState): EventBody {
  const { frozen } = state
  if (!frozen) return { type: 'frozen' }
  if (!frozen.said) return { type: 'unfrozen' }
  const { by, beganAt = 0, endedAt = 0, ...said } = frozen.said
  return interpret(pack, state, { ...said, beganAt, endedAt, by: by === 'typed' ? 'typed' : 'voice' }).event
}
