/** Where a watch stands in time: its next calls, from when and by when, and the moment at which something is to be said. */

import { type Ground, holds } from '../../figures/condition.ts'
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
  seenBefore: [],
  values: {},
  asked: [],
  unheard: [],
  late: [],
  early: {},
  outside: {},
  unfit: {},
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
/** As it is here and now: calls that apply, and limits that are figures by their values. */
function applying(watch: Watch, ground: Ground | undefined): Watch {
  if (!ground || !watch.calls.some(({ when, value }) => when || value?.named)) return watch
  const calls = watch.calls.filter(({ when }) => holds(when, ground))
  return { ...watch, calls: calls.map((call) => withLimits(call, ground)) }
}

function withLimits(call: WatchCall, { values }: Ground): WatchCall {
  const { value } = call
  if (!value?.named) return call
  const [min, max] = [value.named.min, value.named.max].map((name) => (name === undefined ? undefined : values[name]))
  const limits = { ...(typeof min === 'number' && { min }), ...(typeof max === 'number' && { max }) }
  return { ...call, value: { ...value, ...limits } }
}

/** With a ground as it is there. Throws where the pack does not have it. */
export function watchById(pack: Pack, id: string, ground?: Ground): Watch {
  const watch = watchesOf(pack).find((one) => one.id === id)
  if (!watch) throw new Error(`pack ${pack.id} has no watch ${id}`)
  return applying(watch, ground)
}
/** The watch that has the floor. */
export function watchAt(pack: Pack, floor: Floor, ground?: Ground): Watch | undefined {
  const activity = floor.at === 'watch' ? pack.phases[floor.phase]?.activities[floor.activity] : undefined
  return activity?.type === 'watch' ? applying(activity, ground) : undefined
}
/** Of several engines one is started at a time. */
export function runningWatch(pack: Pack, state: RunState): Watch | undefined {
  const id = Object.keys(state.watches).find((one) => state.watches[one]?.status === 'running')
  return id === undefined ? undefined : watchById(pack, id, state)
}

/** A start that was stopped and not begun again since. */
export function stoppedWatch(pack: Pack, state: RunState): Watch | undefined {
  return watchesOf(pack).find(({ id }) => watchState(state, id).status === 'stopped')
}

export interface NextCall {
  readonly call: WatchCall
  /** Onset of what its times run from, ms from the start of the run. */
  readonly since: number
  /** Before this it cannot have been seen. */
  readonly soonestAt?: number
  readonly dueAt?: number
}

/** One call alone, or those of a group. */
function blocksOf({ calls }: Watch): WatchCall[][] {
  const blocks: WatchCall[][] = []
  for (const call of calls) {
    const block = blocks.at(-1)
    if (block && call.group !== undefined && block[0]?.group === call.group) block.push(call)
    else blocks.push([call])
  }
  return blocks
}

/**
 * The calls that may be heard next, in the order of the pack: one, or those that are left of a group and wait for no other
 * of it. Times run from the call that they name, or from the one before.
 */
export function openCalls(watch: Watch, state: WatchState): NextCall[] {
  const isOpen = ({ id }: WatchCall) => state.calls[id] === undefined
  const left =
    blocksOf(watch)
      .map((block) => block.filter(isOpen))
      .find(({ length }) => length > 0) ?? []
  return left.filter(({ after }) => !left.some(({ id }) => id === after)).map((call) => timed(watch, state, call))
}

/** A call of a watch, open or heard, with its limits as they stand. */
export function timed(watch: Watch, state: WatchState, call: WatchCall): NextCall {
  const since = sinceOf(watch, state, call, (id) => state.calls[id])
  const soonestAt = soonestOf(watch, state, call)
  return {
    ...{ call, since },
    ...(call.notBefore !== undefined && { soonestAt }),
    ...(call.within !== undefined && { dueAt: since + call.within * 1_000 }),
  }
}

/** The first of them. */
export const nextCall = (watch: Watch, state: WatchState): NextCall | undefined => openCalls(watch, state)[0]

/** The call that has to be heard before this one may be; undefined where none has. */
export function missingBefore(watch: Watch, state: WatchState, id: string): WatchCall | undefined {
  const open = openCalls(watch, state).map(({ call }) => call)
  const named = (name: string | undefined) => watch.calls.find((call) => call.id === name)
  for (let call = named(id); call; call = named(call.after)) {
    const found = open.find((one) => one.id === call?.id)
    if (found) return found.id === id ? undefined : found
  }
  return open[0]
}

/** What the times of a call run from: what the pack names, or the call before; of a group the last one. */
function sinceOf(watch: Watch, state: WatchState, call: WatchCall, timeOf: (id: string) => number | undefined): number {
  const named = call.after === undefined || call.after === 'begin' ? undefined : timeOf(call.after)
  if (named !== undefined) return named
  const blocks = blocksOf(watch)
  const before = blocks[blocks.findIndex((block) => block.includes(call)) - 1]
  if (!before || call.after === 'begin') return state.beganAt
  return Math.max(...before.map(({ id }) => timeOf(id) ?? state.beganAt))
}

/** When a call can have been seen at the soonest. Of one that was called late, or only affirmed later, nobody knows when it was. */
function soonestOf(watch: Watch, state: WatchState, call: WatchCall): number {
  const since = sinceOf(watch, state, call, (id) => {
    const at = state.calls[id]
    const known = watch.calls.find((one) => one.id === id)
    const isTimed = !state.seenBefore.includes(id) && !state.late.includes(id)
    if (at === undefined || !known || isTimed) return at
    return Math.min(at, soonestOf(watch, state, known))
  })
  return since + (call.notBefore ?? 0) * 1_000
}

/** The timer of the next moment at which something is to be said: of several calls the first to be due. */
export function watchTimer(pack: Pack, state: RunState): Effect[] {
  const watch = runningWatch(pack, state)
  if (!watch) return []
  const own = watchState(state, watch.id)
  const { asked, unheard } = own
  const moments = openCalls(watch, own).flatMap(({ call, since, dueAt }) => {
    if (dueAt === undefined || unheard.includes(call.id)) return []
    const isAsked = asked.includes(call.id)
    const event = { type: 'watchDue', watch: watch.id, call: call.id, stage: isAsked ? 'limit' : 'ask' } as const
    return [{ at: isAsked ? dueAt : since + (dueAt - since) * ASK_AT, event }]
  })
  const [next] = moments.sort((one, other) => one.at - other.at)
  return next ? [{ type: 'startTimer', timer: 'watch', ms: Math.max(0, next.at - state.t), event: next.event }] : []
}
