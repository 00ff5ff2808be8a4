/** What became of a call of a start, told by the states around it: nothing is judged a second time. */

import type { RunEvent } from '../core/events.ts'
import type { RunState } from '../core/state.ts'
import { watchState } from './watchTiming.ts'

export type CallOutcome =
  /** The start that it is a call of was not begun. */
  | 'noStart'
  | 'taken'
  /** Taken, behind its limit. */
  | 'late'
  /** Sooner than it can have been seen, and questioned. */
  | 'tooEarly'
  /** Another call has to come first. */
  | 'outOfOrder'
  | 'outOfLimits'
  /** So far from its limit that it was likelier misread. */
  | 'unlikely'
  /** It is not the difference of what it lies between. */
  | 'doesNotFit'
  /** What is read out with it is still owed. */
  | 'noValue'
  /** It had been taken before. */
  | 'again'

type Called = Pick<RunEvent<'watchCalled'>, 'watch' | 'call' | 'value' | 'inRange'>

export function callOutcome(before: RunState, after: RunState, { watch, call, value, inRange }: Called): CallOutcome {
  const was = watchState(before, watch)
  const own = watchState(after, watch)
  if (was.status !== 'running') return 'noStart'
  if (was.calls[call] !== undefined) {
    if (inRange === false) return 'outOfLimits'
    return value === undefined || value === was.values[call] ? 'again' : 'taken'
  }
  const { question } = after
  if (question?.about === 'callOrder') return 'outOfOrder'
  if (question?.about === 'callEarly') return 'tooEarly'
  if (own.calls[call] !== undefined) return own.late.includes(call) ? 'late' : 'taken'
  if (own.pending !== undefined && own.pending.call !== call) return 'outOfOrder'
  if (inRange === false) return 'outOfLimits'
  if (question?.about === 'callValue') return 'unlikely'
  if (own.unfit[call] !== was.unfit[call]) return 'doesNotFit'
  return own.pending === undefined ? 'again' : 'noValue'
}
