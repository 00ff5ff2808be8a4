/**
 * A watch under way: calls in their order, each with its limit, and the stop words. Silence is not "it
 * did not happen": at a limit Otherseat says that no call was heard, and the stop words "unless seen".
 */

import type { Pack, Watch, WatchCall } from './checklist.ts'
import type { Effect, RunEvent } from './events.ts'
import { unmet } from './interlocks.ts'
import { nextFloor } from './moving.ts'
import { say } from './phrases.ts'
import type { RunState, WatchState } from './state.ts'
import { enter, type Step, turn } from './turn.ts'

type Of<T extends RunEvent['type']> = Extract<RunEvent, { type: T }>

/** Part of a limit after which a call that was not heard is asked for. */
const ASK_AT = 0.6

const AHEAD: WatchState = { status: 'ahead', beganAt: 0, calls: {}, asked: [], actions: [] }

export function watchState(state: RunState, id: string): WatchState {
  return state.watches[id] ?? AHEAD
}
function withWatch(state: RunState, id: string, change: Partial<WatchState>): RunState {
  return { ...state, watches: { ...state.watches, [id]: { ...watchState(state, id), ...change } } }
}

export function watchById(pack: Pack, id: string): Watch {
  const watch = pack.phases.flatMap(({ activities }) => activities).find((activity) => activity.id === id)
  if (watch?.type !== 'watch') throw new Error(`pack ${pack.id} has no watch ${id}`)
  return watch
}

/** The call that is to be heard next, and since when its limit runs. */
export function nextCall(watch: Watch, state: WatchState): { call: WatchCall; since: number } | undefined {
  let since = state.beganAt
  for (const call of watch.calls) {
    const at = state.calls[call.id]
    if (at === undefined) return { call, since }
    since = at
  }
  return undefined
}

/** The timer of the next moment at which something is to be said; `t` is now. */
export function watchTimer(watch: Watch, state: WatchState, t: number): Effect[] {
  const next = state.status === 'running' ? nextCall(watch, state) : undefined
  if (next?.call.within === undefined) return []
  const limitMs = next.call.within * 1_000
  const stage = state.asked.includes(next.call.id) ? 'limit' : 'ask'
  const due = next.since + (stage === 'ask' ? limitMs * ASK_AT : limitMs)
  const happening = { type: 'watchDue', watch: watch.id, call: next.call.id, stage } as const
  // Past its limit and said so: nothing more to time.
  if (stage === 'limit' && state.asked.includes(`${next.call.id}!`)) return []
  return [{ type: 'startTimer', timer: 'watch', ms: Math.max(0, due - t), happening }]
}

export function began(pack: Pack, state: RunState, event: Of<'watchBegan'>): Step {
  const watch = watchById(pack, event.watch)
  if (watchState(state, watch.id).status === 'running') return { state, effects: [] }
  const held = unmet(pack, state, watch.interlocks, event.t)
  if (held) return turn(pack, state, [say.notYet(held.interlock.say)])
  const running: WatchState = { ...AHEAD, status: 'running', beganAt: event.at }
  const next = withWatch(state, watch.id, running)
  return { state: next, effects: [{ type: 'tone', tone: 'tick' }, ...watchTimer(watch, running, event.t)] }
}

export function called(pack: Pack, state: RunState, event: Of<'watchCalled'>): Step {
  const watch = watchById(pack, event.watch)
  const before = watchState(state, watch.id)
  const next = before.status === 'running' ? nextCall(watch, before) : undefined
  if (!next || before.calls[event.call] !== undefined) return { state, effects: [] }
  if (next.call.id !== event.call) return noCall(pack, state, watch, next.call, event.t)
  const running = withWatch(state, watch.id, { calls: { ...before.calls, [event.call]: event.at } })
  const after = watchState(running, watch.id)
  if (nextCall(watch, after)) {
    return { state: running, effects: [{ type: 'tone', tone: 'tick' }, ...watchTimer(watch, after, event.t)] }
  }
  const done = withWatch(running, watch.id, { status: 'done' })
  return enter(pack, done, nextFloor(pack, done), [say.watched(watch.name)], 'tick')
}

/** An abnormal call: the stop words at once, then the pack's actions, then the way back. */
export function stopped(pack: Pack, state: RunState, event: Of<'watchStopped'>): Step {
  const watch = watchById(pack, event.watch)
  const abnormal = watch.abnormal.find(({ id }) => id === event.abnormal)
  if (!abnormal) return { state, effects: [] }
  const next = withWatch(state, watch.id, { status: 'stopped', because: abnormal.label, actions: abnormal.actions })
  return turn(pack, next, [say.stop(abnormal.stopWords), ...abnormal.actions.map(say.action), say.wayBack()])
}

export function due(pack: Pack, state: RunState, event: Of<'watchDue'>): Step {
  const watch = watchById(pack, event.watch)
  const before = watchState(state, watch.id)
  const next = before.status === 'running' ? nextCall(watch, before) : undefined
  if (next?.call.id !== event.call) return { state, effects: [] }
  if (event.stage === 'limit') return noCall(pack, state, watch, next.call, event.t)
  const asked = withWatch({ ...state, said: say.challenge(next.call.label) }, watch.id, {
    asked: [...before.asked, next.call.id],
  })
  // A tone and the screen: under its own voice it would be deaf to the very call it waits for.
  const timer = watchTimer(watch, watchState(asked, watch.id), event.t)
  return { state: asked, effects: [{ type: 'tone', tone: 'attention' }, ...timer] }
}

function noCall(pack: Pack, state: RunState, watch: Watch, call: WatchCall, t: number): Step {
  const { asked } = watchState(state, watch.id)
  const next = withWatch(state, watch.id, { asked: [...new Set([...asked, call.id, `${call.id}!`])] })
  const step = turn(pack, next, [say.noCall(call.label, watch.stopWords)])
  return { state: step.state, effects: [...step.effects, ...watchTimer(watch, watchState(step.state, watch.id), t)] }
}

/** "From the top" in a watch: it is ahead again, its time not begun. */
export function restarted(pack: Pack, state: RunState, id: string): Step {
  const { floor } = state
  return enter(pack, withWatch(state, id, AHEAD), floor, [])
}
