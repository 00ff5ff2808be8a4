/**
 * What must come before something may be called done. Otherseat forbids the saying; it cannot forbid
 * the doing.
 */

import type { Condition } from '../../figures/condition.ts'
import { holds } from '../../figures/condition.ts'
import type { Activity, Pack } from '../../pack/checklist.ts'
import { callEvent, calledEvent, type Interlock } from '../../pack/condition.ts'
import type { RunState } from './state.ts'

/** Names of all that is done now, as an interlock names it. */
function doneNames(state: RunState): string[] {
  const entries = <T>(record: Readonly<Record<string, T>>, is: (value: T) => boolean) =>
    Object.entries(record).flatMap(([name, value]) => (is(value) ? [name] : []))
  return [
    ...entries(state.items, (item) => item.status === 'done' || item.status === 'passed'),
    ...entries(state.lists, (list) => list.complete),
    ...entries(state.lists, (list) => list.called).map(calledEvent),
    // As far as a partner who errs knows, and the run goes by that.
    ...(state.partner?.calledComplete ?? []),
    ...entries(state.watches, (watch) => watch.status === 'done'),
    ...Object.keys(callsAt(state)),
    ...entries(state.turns, (turn) => turn.status === 'done'),
    ...entries(state.topics, (topic) => topic === 'ok'),
    ...state.briefingsClosed,
    ...state.stepsDone,
    ...state.cleared.map((clearance) => `cleared:${clearance}`),
  ]
}

/** Onsets of calls of watches, by what an interlock calls them. */
function callsAt({ watches }: RunState): Readonly<Record<string, number>> {
  return Object.fromEntries(
    Object.entries(watches).flatMap(([watch, { calls }]) =>
      Object.entries(calls).map(([call, at]) => [callEvent(watch, call), at]),
    ),
  )
}

/** Whether what an interlock names is done now, whenever that was, or does not apply in this run. */
export function isFree(pack: Pack, state: RunState, { after }: Interlock): boolean {
  return doneNames(state).includes(after) || !canHappen(pack, state, after)
}

/** What a thing still waits for, in the words of its interlock; undefined where it waits for nothing, or for time alone. */
export const waitsFor = (pack: Pack, state: RunState, held: { readonly interlocks?: readonly Interlock[] }) =>
  held.interlocks?.find((interlock) => !isFree(pack, state, interlock))?.say

/** Notes when each thing was done, and forgets what is no longer done. `t`: ms from the start of the run; a call has its own. */
export function stamped(state: RunState, t: number): RunState {
  const calls = callsAt(state)
  const doneAt = Object.fromEntries(doneNames(state).map((name) => [name, state.doneAt[name] ?? calls[name] ?? t]))
  return { ...state, doneAt }
}

export interface Unmet {
  readonly interlock: Interlock
  /** Only time has to pass: this much of it. */
  readonly waitMs?: number
}

/**
 * The first interlock that does not hold at `t`. One that waits for something that does not apply in this run holds:
 * something of another situation, or of the ground crew where the voices outside the crew are left out.
 */
export function unmet(
  pack: Pack,
  state: RunState,
  interlocks: readonly Interlock[] | undefined,
  t: number,
): Unmet | undefined {
  for (const interlock of interlocks ?? []) {
    const lost = lostClearance(pack, state, interlock.after)
    if (lost) return { interlock: lost }
    const since = state.doneAt[interlock.after]
    if (since === undefined && !canHappen(pack, state, interlock.after)) continue
    if (since === undefined) return { interlock }
    const waitMs = since + (interlock.seconds ?? 0) * 1_000 - t
    if (waitMs > 0) return { interlock, waitMs }
  }
  return undefined
}

/** What was said on a clearance that is open again does not stand for what waits for it. */
function lostClearance(pack: Pack, state: RunState, name: string): Interlock | undefined {
  if (state.turns[name]?.status !== 'done') return undefined
  const turns = pack.phases.flatMap(({ activities }) =>
    activities.flatMap((activity) => (activity.type === 'exchange' ? activity.turns : [])),
  )
  const { interlocks = [] } = turns.find(({ id }) => id === name) ?? {}
  return interlocks.find((one) => one.after.startsWith('cleared:') && !isFree(pack, state, one))
}

/** False for what the pack has, but not for this run. */
function canHappen(pack: Pack, state: RunState, name: string): boolean {
  const all = pack.phases.flatMap(({ activities }) => activities)
  const mine = all.filter(({ type, when }) => holds(when, state) && (state.script || !isTalk(type)))
  const isIn = (activities: readonly Activity[], applies: Applies) =>
    activities.some((activity) => namesIn(activity, applies).includes(name))
  return isIn(mine, ({ when }) => holds(when, state)) || !isIn(all, () => true)
}

type Applies = (one: { readonly when?: Condition }) => boolean

const isTalk = (type: Activity['type']) => type === 'exchange' || type === 'briefing'

/** All that can be done in an activity, as an interlock names it. */
function namesIn(activity: Activity, applies: Applies): string[] {
  switch (activity.type) {
    case 'flow':
      return activity.steps.filter(applies).map(({ id }) => id)
    case 'watch':
      return [activity.id, ...activity.calls.filter(applies).map(({ id }) => callEvent(activity.id, id))]
    case 'list': {
      const entries = activity.entries.filter(applies)
      return [
        activity.id,
        calledEvent(activity.id),
        ...entries.map((each) => (each.type === 'line' ? `cleared:${each.clearance}` : each.id)),
      ]
    }
    case 'briefing':
      return [activity.id, ...activity.topics.filter(applies).map(({ id }) => id)]
    case 'exchange':
      return activity.turns
        .filter(applies)
        .flatMap(({ id, clears }) => [id, ...(clears === undefined ? [] : [`cleared:${clears}`])])
  }
}
