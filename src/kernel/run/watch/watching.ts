/**
 * A watch as it begins, is stopped, is too late or begins again; its calls are taken in `calling.ts`. Silence is not "it
 * did not happen": at a limit Otherseat says the stop words, or to call it.
 */

import { sayValue } from '../../kinds/table.ts'
import type { Pack, Pause, Watch } from '../../pack/checklist.ts'
import { agenda } from '../../pack/place.ts'
import type { RunEvent } from '../core/events.ts'
import { type Unmet, unmet } from '../core/interlocks.ts'
import { enter, sayAndListen } from '../core/listening.ts'
import { closeFlowsBefore, floorOf, isAhead } from '../core/moving.ts'
import { notYet, secondsLeft } from '../core/notYet.ts'
import { say } from '../core/phrases.ts'
import type { PendingCall, RunState, Step } from '../core/state.ts'
import { heldAlready } from './saidOnce.ts'
import { openCalls, runningWatch, WATCH_AHEAD, watchAt, watchById, watchState, withWatch } from './watchTiming.ts'

/** A tone alone: under its own voice it would be deaf to the very call it waits for. */
export const toned = (state: RunState, tone: 'tick' | 'attention'): Step => ({
  state,
  effects: [{ type: 'tone', tone }],
})
/** Whole seconds in words. */
export const seconds = (ms: number) => sayValue({ kind: 'integer', value: Math.round(ms / 1_000) }, 'plain')

/** An engine that is being started is not left for something else; undefined where none is. */
export function startUnderWay(pack: Pack, state: RunState): Step | undefined {
  const watch = runningWatch(pack, state)
  return watch && sayAndListen(pack, state, [say.firstComplete(watch.name)])
}

/** The words that begin a watch: it is under way, or Otherseat says why it is not. Throws where the pack does not have it. */
export function began(pack: Pack, before: RunState, event: RunEvent<'watchBegan'>): Step {
  const watch = watchById(pack, event.watch, before)
  const running = runningWatch(pack, before)
  if (running?.id === watch.id) return { state: before, effects: [] }
  // One at a time: the hand is still on the selector of the other one.
  if (running) return sayAndListen(pack, before, [say.firstComplete(running.name)])
  const state = { ...before, standingBy: false }
  const own = watchState(state, watch.id)
  if (own.status === 'done') return sayAndListen(pack, state, [say.alreadyDone(watch.name)], { prompt: true })
  const list = listBefore(pack, state, watch.id)
  if (list !== undefined) return sayAndListen(pack, state, [say.notCalled(list)], { prompt: true })
  const blockedBy = unmet(pack, state, watch.interlocks, event.t) ?? tooSoon(state, watch)
  if (blockedBy) return notYet(pack, state, watch.id, blockedBy)
  const place = agenda(pack, state).find(({ activity }) => activity.id === watch.id)
  if (!place) return { state, effects: [] }
  const fresh = { ...WATCH_AHEAD, attempt: own.attempt + 1, status: 'running', beganAt: event.at } as const
  const closed = heldAlready(closeFlowsBefore(pack, state, watch.id), watch)
  // Nothing of an attempt that was stopped stays with the next.
  const begun: RunState = { ...closed, watches: { ...closed.watches, [watch.id]: fresh } }
  const isHere = watchAt(pack, state.floor)?.id === watch.id
  if (isHere && !state.question) return toned(begun, 'tick')
  const floor = floorOf(pack, begun, place)
  return sayAndListen(pack, { ...begun, floor, question: undefined, floorListenId: state.listenId + 1 }, [], {
    tone: 'tick',
  })
}

/** After a start that was stopped some time must pass: it drains, cools, or the starter rests. */
export function tooSoon(state: RunState, watch: Watch): (Unmet & { readonly waitMs: number }) | undefined {
  const { notBefore } = watchState(state, watch.id)
  if (!notBefore || notBefore.until <= state.t) return undefined
  const { until, say: caution } = notBefore
  return { interlock: { after: watch.id, say: caution }, waitMs: until - state.t }
}

/** The first list before a watch that still has to be run: its phase must not pass it by. */
function listBefore(pack: Pack, state: RunState, id: string): string | undefined {
  const places = agenda(pack, state)
  const ahead = places.slice(
    0,
    places.findIndex(({ activity }) => activity.id === id),
  )
  return ahead.find(({ activity }) => activity.type === 'list' && isAhead(state, activity))?.activity.name
}

/** An abnormal call: the stop words at once, then the pack's actions, then the way back. */
export function stopped(pack: Pack, before: RunState, event: RunEvent<'watchStopped'>): Step {
  const watch = watchById(pack, event.watch, before)
  const abnormal = watch.abnormal.find(({ id }) => id === event.abnormal)
  const own = watchState(before, watch.id)
  if (!abnormal) return { state: before, effects: [] }
  if (own.status === 'ahead' || own.status === 'done') return sayAndListen(pack, before, [say.noStart()])
  const { label, actions, again } = abnormal
  const pause = pauseOf(watch, own.attempt, again)
  const isInvited = again !== undefined
  const { stopWords } = abnormal
  const orders = [...new Set([stopWords, ...actions])]
  const stop = { because: label, at: event.at, t: event.t, actions: orders, pause, isInvited }
  const stopped = withStopped(before, watch, stop)
  // Where the pack has no way back, as after a fire, nothing invites to another start.
  const words = [
    say.stop(stopWords),
    ...actions.map(say.action),
    ...(isInvited ? [wayBack(pause)] : []),
    ...before.wordsAfterWatch,
  ]
  return sayAndListen(pack, stopped, words)
}

/**
 * Stopped by the crew, for whatever reason: the stop words, and the way back. Why is not known, so the longest wait of the
 * pack's own abnormal starts holds. `at`: onset of the speech, `t`: now, both ms from the start of the run.
 */
export function stoppedByCrew(
  before: RunState,
  watch: Watch,
  { at, t }: { readonly at: number; readonly t: number },
): { readonly state: RunState; readonly words: readonly string[] } {
  const { attempt } = watchState(before, watch.id)
  const pause = pauseOf(watch, attempt, ...watch.abnormal.map((one) => one.again))
  const stop = {
    because: 'by the crew',
    at,
    t,
    actions: [watch.stopWords],
    pause,
    isInvited: pause !== undefined,
  }
  const state = withStopped(before, watch, stop)
  return { state, words: [say.stop(watch.stopWords), wayBack(pause), ...before.wordsAfterWatch] }
}

/** The longest of these and of what the starter needs after so many attempts. */
function pauseOf({ attempts }: Watch, attempt: number, ...again: readonly (Pause | undefined)[]): Pause | undefined {
  const starter = attempts && (attempt % attempts.most === 0 ? attempts.cool : attempts.rest)
  return [...again, starter].flatMap((one) => one ?? []).sort((one, other) => other.seconds - one.seconds)[0]
}

const wayBack = (pause: Pause | undefined) =>
  say.wayBack(pause && { say: pause.say, seconds: seconds(pause.seconds * 1_000) })

interface Stopped {
  readonly because: string
  readonly at: number
  readonly t: number
  readonly actions: readonly string[]
  readonly pause: Pause | undefined
  /** Whether anything invites to another start. */
  readonly isInvited: boolean
}

/** It may begin again only when its time has passed; the end of that is announced. */
function withStopped(before: RunState, watch: Watch, { because, at, t, actions, pause, isInvited }: Stopped): RunState {
  const injected = before.injected?.map((one) =>
    one.watch === watch.id && one.isTaken && !one.met ? { ...one, met: { at, because } } : one,
  )
  const free = {
    ...{ ...before, question: undefined, standingBy: false, wordsAfterWatch: [] },
    ...(injected && { injected }),
  }
  const stopped = withWatch(free, watch.id, {
    ...{ status: 'stopped', because, stoppedAt: at, actions },
    ...(pause && { notBefore: { until: t + pause.seconds * 1_000, say: pause.say } }),
  })
  return pause && isInvited ? { ...stopped, waitedFor: [...new Set([...stopped.waitedFor, watch.id])] } : stopped
}

/** A call was not heard in time: a tone asks for it first, words say so at its limit. */
export function due(pack: Pack, state: RunState, event: RunEvent<'watchDue'>): Step {
  const watch = watchById(pack, event.watch, state)
  const own = watchState(state, watch.id)
  const next = own.status === 'running' ? openCalls(watch, own).find(({ call }) => call.id === event.call) : undefined
  if (!next) return { state, effects: [] }
  const { id, label } = next.call
  const asked = [...new Set([...own.asked, id])]
  if (event.stage === 'ask') {
    return toned(withWatch({ ...state, said: say.challenge(label) }, watch.id, { asked }), 'attention')
  }
  const unheard = [...new Set([...own.unheard, id])]
  return noCall(pack, withWatch(state, watch.id, { asked, unheard }), watch.id, id)
}

/** Denied: what has to come first was not seen. The stop words hold unless it is called. */
export function notSeen(
  pack: Pack,
  state: RunState,
  { watch, missing, call }: { readonly watch: string; readonly missing: string; readonly call: PendingCall },
): Step {
  const ahead = { ...watchState(state, watch).ahead, [call.id]: missing }
  return noCall(pack, withWatch(state, watch, { ahead }), watch, missing)
}

/** No call heard is not "it did not happen": the stop words hold unless it is called. */
function noCall(pack: Pack, state: RunState, id: string, call: string): Step {
  const watch = watchById(pack, id, state)
  const { pending } = watchState(state, id)
  const { label = call, value } = watch.calls.find((one) => one.id === call) ?? {}
  // The call came, and what is read out with it did not.
  const missing = pending?.call === call ? (value?.label ?? label) : label
  return sayAndListen(pack, state, [say.noCall(missing, watch.stopWords)])
}

/** "From the top" in a watch: it is ahead again, its time not begun; what must pass after a stop still must. */
export function restarted(pack: Pack, state: RunState, id: string): Step {
  const { attempt, notBefore } = watchState(state, id)
  const watch = watchById(pack, id, state)
  const blockedBy = tooSoon(state, watch)
  const fresh = { ...WATCH_AHEAD, attempt, ...(notBefore && { notBefore }) }
  const ahead = { ...state, watches: { ...state.watches, [id]: fresh } }
  return blockedBy
    ? sayAndListen(pack, ahead, [say.notYet(blockedBy.interlock.say, secondsLeft(blockedBy.waitMs))])
    : enter(pack, ahead, state.floor)
}
