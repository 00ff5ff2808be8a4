/** What is said where an interlock does not hold. */

import type { Pack } from '../../pack/checklist.ts'
import type { Unmet } from './interlocks.ts'
import { sayAndListen } from './listening.ts'
import { say } from './phrases.ts'
import type { RunState, Step } from './state.ts'

/** Right as said, but something must come first: it stays open. Where only time has to pass, Otherseat says when it has. */
export function notYet(pack: Pack, state: RunState, of: string, { interlock, waitMs }: Unmet): Step {
  const waitedFor = waitMs === undefined ? state.waitedFor : [...new Set([...state.waitedFor, of])]
  return sayAndListen(pack, { ...state, waitedFor }, [say.notYet(interlock.say)])
}
