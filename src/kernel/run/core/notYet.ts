/** What is said where an interlock does not hold. */

import { sayValue } from '../../kinds/table.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { Unmet } from './interlocks.ts'
import { sayAndListen } from './listening.ts'
import { say } from './phrases.ts'
import type { RunState, Step } from './state.ts'

/** Whole seconds in words; a part of one counts. */
export const secondsLeft = (ms: number): string => sayValue({ kind: 'integer', value: Math.ceil(ms / 1_000) }, 'plain')

/** The last answer was right and is refused. */
export const withRefusal = (state: RunState): RunState =>
  state.last ? { ...state, last: { ...state.last, isRefused: true } } : state

/** Right as said, but something must come first: it stays open. Where only time has to pass, Otherseat says when it has. */
export function notYet(pack: Pack, state: RunState, of: string, { interlock, waitMs }: Unmet): Step {
  const waitedFor = waitMs === undefined ? state.waitedFor : [...new Set([...state.waitedFor, of])]
  return sayAndListen(pack, { ...state, waitedFor }, [
    say.notYet(interlock.say, waitMs === undefined ? undefined : secondsLeft(waitMs)),
  ])
}
