/** Engine starts and flows in the debrief: every attempt with its calls and times, every step and whether it was ticked. */

import { type Ground, holds } from '../../figures/condition.ts'
import type { Value } from '../../kinds/kind.ts'
import type { Band } from '../../kinds/value.ts'
import type { CallValue, Pack, Watch, WatchCall } from '../../pack/checklist.ts'
import { flowsOf, stepsOf } from '../../pack/place.ts'
import type { RunState, WatchState } from '../core/state.ts'
import { watchById } from '../watch/watchTiming.ts'
import type { Moment, Tally } from './tally.ts'

export interface DebriefWatch {
  readonly id: string
  readonly name: string
  readonly attempt: number
  /** Onset of the words that began it, ms from the start of the run. */
  readonly t: number
  readonly status: WatchState['status']
  /** The abnormal call that stopped it. */
  readonly because?: string
  /** Onset of the words that stopped it, ms after the beginning. */
  readonly stoppedAfterMs?: number
  readonly calls: readonly DebriefCall[]
}

export interface DebriefCall {
  readonly label: string
  /** Onset, ms after the beginning; undefined where none was heard. */
  readonly afterMs?: number
  readonly value?: Value
  /** Onset, ms after the beginning, where it was first called sooner than it can have been seen. */
  readonly earlyAfterMs?: number
  /** Values outside their limits that were read out with it, each with its onset, ms after the beginning. */
  readonly outside: readonly { readonly value: Value; readonly afterMs: number }[]
  /** Where a value has to lie, as far as it was outside. */
  readonly limits?: Band
  /** The pack has the start stopped at once for it. */
  readonly stops?: true
  /** Values that were not the difference of those that they lie between. */
  readonly unfit?: readonly Value[]
  /** The call that has to come first and had not been seen yet when this one was made. */
  readonly aheadOf?: string
  /** It began after its limit. */
  readonly late: boolean
  /** At its limit it was said that none was heard. */
  readonly unheard: boolean
}

export interface DebriefFlow {
  readonly id: string
  readonly name: string
  /** It was gone on from; a list that is called closes the flow before it. */
  readonly closed: boolean
  readonly steps: readonly { readonly text: string; readonly done: boolean }[]
}

/** Every attempt as it stands after an event. */
export function tellAttempts({ attempts }: Tally, { before, after }: Moment): void {
  for (const [id, state] of Object.entries(after.watches)) {
    if (state === before.watches[id] || state.status === 'ahead') continue
    attempts.set(`${id}#${state.attempt}`, { id, state })
  }
}

/** All attempts, in their order. */
export function watchesIn(pack: Pack, ground: Ground, { attempts }: Tally): DebriefWatch[] {
  return [...attempts.values()].map(({ id, state }) => attemptOf(watchById(pack, id, ground), state))
}

function attemptOf({ id, name, calls }: Watch, state: WatchState): DebriefWatch {
  const { attempt, beganAt, status, because, stoppedAt } = state
  return {
    id,
    name,
    attempt,
    t: beganAt,
    status,
    ...(because !== undefined && { because }),
    ...(stoppedAt !== undefined && { stoppedAfterMs: stoppedAt - beganAt }),
    calls: calls.map((call) => {
      const at = state.calls[call.id]
      const value = state.values[call.id]
      const early = state.early[call.id]
      const unfit = state.unfit[call.id]
      const outside = state.outside[call.id] ?? []
      const first = calls.find((one) => one.id === state.ahead?.[call.id])
      return {
        label: call.label,
        ...(at !== undefined && { afterMs: at - beganAt }),
        ...(value !== undefined && { value }),
        ...(early !== undefined && { earlyAfterMs: early - beganAt }),
        outside: outside.map(({ value, at }) => ({ value, afterMs: at - beganAt })),
        ...(outside.length > 0 && limitsOf(call)),
        ...(unfit && { unfit }),
        ...(first && { aheadOf: first.label }),
        late: state.late.includes(call.id),
        unheard: state.unheard.includes(call.id),
      }
    }),
  }
}

function limitsOf({ value }: WatchCall): Pick<DebriefCall, 'limits' | 'stops'> {
  const { min, max, stopWords }: Partial<CallValue> = value ?? {}
  return {
    limits: { ...(min !== undefined && { min }), ...(max !== undefined && { max }) },
    ...(stopWords !== undefined && { stops: true }),
  }
}

/** What was not as it should be with a call, in words; the same in every account of the run. */
export function deviationsOf(call: DebriefCall): string[] {
  const { afterMs: calledAfterMs, earlyAfterMs, outside, unfit = [], aheadOf, late, unheard } = call
  const readings = outside.map(({ value, afterMs }) =>
    afterMs === calledAfterMs ? `${value}` : `${value} after ${seconds(afterMs)}`,
  )
  return [
    earlyAfterMs === undefined ? '' : `called after ${seconds(earlyAfterMs)}, sooner than it can be seen`,
    outside.length === 0 ? '' : `out of limits: ${readings.join(', ')}`,
    unfit.length === 0 ? '' : `does not fit the readings: ${unfit.join(', ')}`,
    aheadOf === undefined ? '' : `called before ${aheadOf}, which had not been seen`,
    late ? 'late' : '',
    unheard ? 'no call at its limit' : '',
  ].filter((words) => words)
}

/** A time as the debrief has it: "4.5 s". */
export const seconds = (ms: number) => `${(ms / 1_000).toFixed(1)} s`

/** Calls of all attempts with which something was not as it should be. */
export const deviationsIn = (watches: readonly DebriefWatch[]): number =>
  watches.flatMap(({ calls }) => calls).filter((call) => deviationsOf(call).length > 0).length

/** Flows that apply, with every step and whether it was ticked. */
export function flowsIn(pack: Pack, state: RunState): DebriefFlow[] {
  return flowsOf(pack)
    .filter(({ when }) => holds(when, state))
    .map((flow) => ({
      id: flow.id,
      name: flow.name,
      closed: state.flowsClosed.includes(flow.id),
      steps: stepsOf(flow, state).map(({ id, text }) => ({ text, done: state.stepsDone.includes(id) })),
    }))
}
