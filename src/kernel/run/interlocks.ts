/**
 * What must come before something may be called done. Otherseat forbids the saying; it cannot forbid
 * the doing.
 */

import type { Interlock } from './checklist.ts'
import type { RunState } from './state.ts'

/** Names of all that is done now, as an interlock names it. */
function doneNames(state: RunState): string[] {
  const entries = <T>(record: Readonly<Record<string, T>>, is: (value: T) => boolean) =>
    Object.entries(record).flatMap(([name, value]) => (is(value) ? [name] : []))
  return [
    ...entries(state.items, (item) => item.status === 'done' || item.status === 'passed'),
    ...entries(state.lists, (list) => list.complete),
    ...entries(state.watches, (watch) => watch.status === 'done'),
    ...entries(state.turns, (turn) => turn.status === 'done'),
    ...entries(state.topics, (topic) => topic === 'ok'),
    ...state.briefingsClosed,
    ...state.stepsDone,
    ...state.cleared.map((clearance) => `cleared:${clearance}`),
  ]
}

/** Whether what an interlock names is done now, whenever that was. */
export function isDone(state: RunState, name: string): boolean {
  return doneNames(state).includes(name)
}

/** Stamps what has become done, and forgets what is done no more. `t`: ms from the start of the run. */
export function stamped(state: RunState, t: number): RunState {
  const doneAt = Object.fromEntries(doneNames(state).map((name) => [name, state.doneAt[name] ?? t]))
  return { ...state, doneAt }
}

export interface Unmet {
  readonly interlock: Interlock
  /** Only time is wanting: this much of it. */
  readonly waitMs?: number
}

/** The first interlock that does not hold at `t`. */
export function unmet(state: RunState, interlocks: readonly Interlock[] | undefined, t: number): Unmet | undefined {
  for (const interlock of interlocks ?? []) {
    const since = state.doneAt[interlock.after]
    if (since === undefined) return { interlock }
    const waitMs = since + (interlock.seconds ?? 0) * 1_000 - t
    if (waitMs > 0) return { interlock, waitMs }
  }
  return undefined
}
