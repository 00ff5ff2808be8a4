/** Where a watch stands in time: its next call, since when and by when, and the moment at which something is to be said. */

import type { Pack, Watch, WatchCall } from '../../pack/checklist.ts'
import type { Effect } from '../core/events.ts'
import type { Floor, RunState, WatchState } from '../core/state.ts'

/** Part of a limit after which a call that was not heard is asked for. */
const ASK_AT = 0.6

export const WATCH_AHEAD: WatchState = {
  status: 'ahead',
  attempt: 0,
  beganAt: 0,
  calls: {},
  values: {},
  asked: [],
  unheard: [],
  late: [],
  actions: [],
}

/** That of a watch ahead where nothing has happened with it. */
export function watchState(state: RunState, id: string): WatchState {
  return state.watches[id] ?? WATCH_AHEAD
}
export function withWatch(state: RunState, id: string, change: Partial<WatchState>): RunState {
  return { ...state, watches: { ...state.watches, [id]: { ...watchState(state, id), ...change } } }
}

/** All of a pack, whatever applies. */
export function watchesOf(pack: Pack): Watch[] {
  return pack.phases.flatMap(({ activities }) => activities.filter((activity) => activity.type === 'watch'))
}
/** Throws where the pack does not have it. */
export function watchById(pack: Pack, id: string): Watch {
  const watch = watchesOf(pack).find((one) => one.id === id)
  if (!watch) throw new Error(`pack ${pack.id} has no watch ${id}`)
  return watch
}
/** The watch that has the floor. */
export function watchAt(pack: Pack, floor: Floor): Watch | undefined {
  const activity = floor.at === 'watch' ? pack.phases[floor.phase]?.activities[floor.activity] : undefined
  return activity?.type === 'watch' ? activity : undefined
}
/** Of several engines one is started at a time. */
export function runningWatch(pack: Pack, state: RunState): Watch | undefined {
  const id = Object.keys(state.watches).find((one) => state.watches[one]?.status === 'running')
  return id === undefined ? undefined : watchById(pack, id)
}

export interface NextCall {
  readonly call: WatchCall
  /** Onset of what its limit runs from, ms from the start of the run. */
  readonly since: number
  readonly dueAt?: number
}

/** The call that is to be heard next; a limit runs from the call it names, or from the one before. */
export function nextCall(watch: Watch, state: WatchState): NextCall | undefined {
  let since = state.beganAt
  for (const call of watch.calls) {
    const at = state.calls[call.id]
    if (at === undefined) return withLimit(call, fromWhen(call, state) ?? since)
    since = at
  }
  return undefined
}

/** What a limit runs from where the pack names it: the beginning, or an earlier call. */
function fromWhen({ after }: WatchCall, state: WatchState): number | undefined {
  if (after === undefined) return undefined
  return after === 'begin' ? state.beganAt : state.calls[after]
}

function withLimit(call: WatchCall, since: number): NextCall {
  return call.within === undefined ? { call, since } : { call, since, dueAt: since + call.within * 1_000 }
}

/** The timer of the next moment at which something is to be said. */
export function watchTimer(pack: Pack, state: RunState): Effect[] {
  const watch = runningWatch(pack, state)
  const own = watch && watchState(state, watch.id)
  const next = own && nextCall(watch, own)
  if (!next || next.dueAt === undefined || own.unheard.includes(next.call.id)) return []
  const stage = own.asked.includes(next.call.id) ? 'limit' : 'ask'
  const due = stage === 'ask' ? next.since + (next.dueAt - next.since) * ASK_AT : next.dueAt
  const event = { type: 'watchDue', watch: watch.id, call: next.call.id, stage } as const
  return [{ type: 'startTimer', timer: 'watch', ms: Math.max(0, due - state.t), event }]
}
