/**
 * A call of a watch under way: taken in its turn, not sooner than it can have been seen, and with its value between the
 * limits. What is doubtful is asked and stays with the attempt; nothing is guessed.
 */

import type { Value } from '../../kinds/kind.ts'
import type { Pack, Watch, WatchCall } from '../../pack/checklist.ts'
import { askAgain, tooSoonToAsk } from '../core/askingAgain.ts'
import type { By, RunEvent } from '../core/events.ts'
import { enter, sayAndListen } from '../core/listening.ts'
import { nextFloor } from '../core/moving.ts'
import { say } from '../core/phrases.ts'
import type { PendingCall, Question, RunState, Step, WatchState } from '../core/state.ts'
import { askFor, fits, isImplausible, outsideOf, valueWords } from './callValue.ts'
import { seconds, toned } from './watching.ts'
import { missingBefore, nextCall, openCalls, runningWatch, watchById, watchState, withWatch } from './watchTiming.ts'

/** A call of a watch under way: taken, questioned, or its value asked for. Throws where the pack does not have the watch. */
export function called(pack: Pack, before: RunState, event: RunEvent<'watchCalled'>): Step {
  const watch = watchById(pack, event.watch, before)
  const own = watchState(before, watch.id)
  if (own.status === 'ahead') return sayAndListen(pack, before, [say.noStart()])
  if (own.status !== 'running') return { state: before, effects: [] }
  if (own.calls[event.call] !== undefined)
    return readAgain(pack, before, watch, event) ?? { state: before, effects: [] }
  const { question } = before
  const heard = { ...before, standingBy: false }
  const state = isOfCalls(question) ? { ...heard, question: undefined } : heard
  // Said once more when it was questioned, it is confirmed.
  const early = question?.about === 'callEarly' && question.call.id === event.call ? question.call : undefined
  const value = event.value ?? early?.value
  const call: PendingCall = {
    id: event.call,
    at: timeOwed(own, event.call) ?? event.at,
    ...(value !== undefined && { value }),
  }
  return taken(pack, state, watch, call, { wasAsked: question !== undefined, isConfirmed: early !== undefined })
}

/** A value that is still owed goes with its call. What is read anew is a reading of its own, unless the next call has come. */
function timeOwed({ pending }: WatchState, id: string): number | undefined {
  if (pending?.call !== id || (pending.wasRead && !pending.behind)) return undefined
  return pending.at
}

type OfCalls = Extract<Question, { about: 'callOrder' | 'callEarly' | 'callValue' }>
type Doubt = Exclude<OfCalls, { about: 'callOrder' }>
const isOfCalls = (question: Question | undefined): question is OfCalls =>
  question?.about === 'callOrder' || question?.about === 'callEarly' || question?.about === 'callValue'

type ReadCall = PendingCall & { readonly value: Value }

interface How {
  /** A question was open, so the ear has to listen for something else now. */
  readonly wasAsked: boolean
  /** It was questioned as too early, and stands. */
  readonly isConfirmed?: boolean
}

/** Asked for again at once; its time runs on. To "say again" the words of the start are still the last ones. */
export function notUnderstood(pack: Pack, state: RunState, by: By): Step {
  const step = tooSoonToAsk(pack, state, by) ?? askAgain(pack, state, [say.sayAgain('')])
  return { ...step, state: { ...step.state, said: state.said } }
}

/** In its turn, not sooner than it can have been seen, and with its value between the limits: else it is questioned. */
function taken(pack: Pack, before: RunState, watch: Watch, call: PendingCall, how: How): Step {
  const own = watchState(before, watch.id)
  const missing = missingBefore(watch, own, call.id)
  if (missing) return outOfOrder(pack, before, watch, call, missing)
  const known = openCalls(watch, own).find(({ call: { id } }) => id === call.id)?.call
  if (!known) return { state: before, effects: [] }
  const isPending = own.pending?.call === call.id
  const isEarly = !isPending && isSooner(watch, own, call)
  const state = isEarly ? noted(before, watch, call) : before
  if (isEarly && !how.isConfirmed) {
    const question = { about: 'callEarly', watch: watch.id, call } as const
    // However that is answered: what was read out of limits was read.
    return sayAndListen(pack, { ...withOutside(state, watch, known, call), question }, [], {
      prompt: true,
      tone: 'attention',
    })
  }
  const { value } = known
  if (!value) return accepted(pack, state, watch, call, how)
  const behind = isPending ? own.pending?.behind : undefined
  const wasRead = call.value !== undefined
  const pending = withWatch(state, watch.id, {
    pending: { call: call.id, at: call.at, wasRead, ...(behind && { behind }) },
  })
  if (call.value === undefined) return sayAndListen(pack, pending, [askFor(known)])
  const side = outsideOf(value, call.value)
  if (side) return outside(pack, pending, watch, { id: call.id, at: call.at, value: call.value }, side)
  if (isImplausible(value, call.value) && !how.isConfirmed) {
    const question = { about: 'callValue', watch: watch.id, call } as const
    return sayAndListen(pack, { ...pending, question }, [], { prompt: true, tone: 'attention' })
  }
  if (!fits(value, call.value, own.values)) return unfit(pack, pending, watch, known, call.value)
  return accepted(pack, state, watch, call, how)
}

/** It is read again, or what it lies between is: which of them was wrong nobody knows. */
function unfit(pack: Pack, before: RunState, watch: Watch, { id, label }: WatchCall, value: Value): Step {
  const { unfit } = watchState(before, watch.id)
  const state = withWatch(before, watch.id, { unfit: { ...unfit, [id]: [...(unfit[id] ?? []), value] } })
  return sayAndListen(pack, state, [say.doesNotFit(label)], { tone: 'attention' })
}

/** Another value than the one that was taken: it takes its place, or is told to be out of limits. Undefined for the same one. */
function readAgain(pack: Pack, before: RunState, watch: Watch, event: RunEvent<'watchCalled'>): Step | undefined {
  const { call, value, at } = event
  const { values } = watchState(before, watch.id)
  const own = watch.calls.find(({ id }) => id === call)?.value
  if (!own || value === undefined || value === values[call]) return undefined
  const wasAsked = isOfCalls(before.question)
  const state = wasAsked ? { ...before, question: undefined } : before
  const side = outsideOf(own, value)
  if (side) return outside(pack, state, watch, { id: call, at, value }, side)
  const corrected = withWatch(state, watch.id, { values: { ...values, [call]: value } })
  return wasAsked ? sayAndListen(pack, corrected, [], { tone: 'tick' }) : toned(corrected, 'tick')
}

/** The value that a call owes is asked for; undefined where none does. */
export function readingAgain(pack: Pack, before: RunState): Step | undefined {
  const watch = runningWatch(pack, before)
  const owing = watch && watchState(before, watch.id).pending?.call
  const call = watch?.calls.find(({ id }) => id === owing)
  return call && sayAndListen(pack, { ...before, question: undefined }, [askFor(call)])
}

/** Whether nobody can have seen it yet. */
function isSooner(watch: Watch, own: WatchState, { id, at }: PendingCall): boolean {
  const soonest = openCalls(watch, own).find(({ call }) => call.id === id)?.soonestAt
  return soonest !== undefined && at < soonest
}

/** The first onset of a call that came too early stays with the attempt. */
function noted(state: RunState, watch: Watch, { id, at }: PendingCall): RunState {
  const { early } = watchState(state, watch.id)
  return early[id] === undefined ? withWatch(state, watch.id, { early: { ...early, [id]: at } }) : state
}

/** Told at once, and counted; what was misread may be read again. */
function outside(pack: Pack, before: RunState, watch: Watch, call: ReadCall, side: 'low' | 'high'): Step {
  const state = counted(before, watch, call)
  const value = watch.calls.find(({ id }) => id === call.id)?.value
  if (value?.stopWords !== undefined) {
    const words = say.outside(valueWords(value, call.value), side, value.stopWords)
    return sayAndListen(pack, state, [words], { tone: 'attention' })
  }
  const question = { about: 'callValue', watch: watch.id, call } as const
  return sayAndListen(pack, { ...state, question }, [], { prompt: true, tone: 'attention' })
}

function withOutside(
  state: RunState,
  watch: Watch,
  { value: limits }: WatchCall,
  { value, ...call }: PendingCall,
): RunState {
  const isOutside = limits && value !== undefined && outsideOf(limits, value) !== undefined
  return isOutside ? counted(state, watch, { ...call, value }) : state
}

/** The same value once more is the same reading. */
function counted(state: RunState, watch: Watch, { id, at, value }: ReadCall): RunState {
  const { outside } = watchState(state, watch.id)
  const read = outside[id] ?? []
  const readings = read.at(-1)?.value === value ? read : [...read, { value, at }]
  return withWatch(state, watch.id, { outside: { ...outside, [id]: readings } })
}

/** A call out of order: was the one that should come first seen? */
function outOfOrder(pack: Pack, before: RunState, watch: Watch, call: PendingCall, missing: WatchCall): Step {
  const { pending } = watchState(before, watch.id)
  const known = watch.calls.find(({ id }) => id === call.id)
  const state = known ? withOutside(before, watch, known, call) : before
  // It came, and owes its value alone.
  if (pending?.call === missing.id) {
    return sayAndListen(pack, withWatch(state, watch.id, { pending: { ...pending, behind: call } }), [askFor(missing)])
  }
  const asked = { ...state, question: { about: 'callOrder', watch: watch.id, missing: missing.id, call } } as const
  // Fuel into an engine that nobody saw turn is as unsafe as at too low a speed: what stops it waits for no answer.
  const { min, stopWords } = known?.value ?? {}
  const first = min === undefined || stopWords === undefined ? [] : [say.stop(stopWords)]
  return sayAndListen(pack, asked, first, { prompt: true, tone: 'attention' })
}

/** Affirmed: it was seen, no later than the call that came. What is read out with it still has to be. */
export function seenBefore(pack: Pack, before: RunState, question: { watch: string; call: PendingCall }): Step {
  const watch = watchById(pack, question.watch, before)
  const state: RunState = { ...before, question: undefined }
  const own = watchState(state, watch.id)
  const missing = missingBefore(watch, own, question.call.id)
  if (!missing) return taken(pack, state, watch, question.call, { wasAsked: true })
  const seen = { id: missing.id, at: question.call.at }
  const seenBefore = [...new Set([...own.seenBefore, seen.id])]
  const early = isSooner(watch, own, seen) ? noted(state, watch, seen) : state
  const marked = withWatch(early, watch.id, { seenBefore })
  if (missing.value) {
    const pending = { call: seen.id, at: seen.at, behind: question.call }
    return sayAndListen(pack, withWatch(marked, watch.id, { pending }), [askFor(missing)])
  }
  const withSeen = withWatch(marked, watch.id, { calls: { ...own.calls, [seen.id]: seen.at } })
  return taken(pack, withSeen, watch, question.call, { wasAsked: true })
}

/** Affirmed: a call that came too early was seen; a value outside its limits was read, and is told as such. */
export function confirmed(pack: Pack, before: RunState, question: Doubt): Step {
  const watch = watchById(pack, question.watch, before)
  const state: RunState = { ...before, question: undefined }
  const { call } = question
  if (question.about === 'callEarly') return taken(pack, state, watch, call, { wasAsked: true, isConfirmed: true })
  const value = watch.calls.find(({ id }) => id === call.id)?.value
  const side = value && call.value !== undefined ? outsideOf(value, call.value) : undefined
  if (!value || call.value === undefined) return { state, effects: [] }
  if (!side) return taken(pack, state, watch, call, { wasAsked: true, isConfirmed: true })
  return sayAndListen(pack, state, [say.outside(valueWords(value, call.value), side, watch.stopWords)])
}

/** Denied: it was not seen and is still to be called, or was not read so and is read again. */
export function doubted(pack: Pack, before: RunState, { about, watch: id, call }: Doubt): Step {
  const watch = watchById(pack, id, before)
  const known = watch.calls.find((one) => one.id === call.id)
  if (!known || about !== 'callValue') return sayAndListen(pack, before, [], { tone: 'tick' })
  return sayAndListen(pack, withoutOutside(before, watch, call), [askFor(known)], { tone: 'tick' })
}

/** What was denied as soon as it was questioned is no reading: it may as well have been misheard. */
function withoutOutside(state: RunState, watch: Watch, { id, value }: PendingCall): RunState {
  const { outside } = watchState(state, watch.id)
  const readings = outside[id] ?? []
  if (readings.at(-1)?.value !== value) return state
  return withWatch(state, watch.id, { outside: { ...outside, [id]: readings.slice(0, -1) } })
}

function accepted(pack: Pack, state: RunState, watch: Watch, call: PendingCall, { wasAsked }: How): Step {
  const own = watchState(state, watch.id)
  const next = openCalls(watch, own).find(({ call: { id } }) => id === call.id)
  const { pending, ...rest } = own
  const isPending = pending?.call === call.id
  const change = {
    ...rest,
    // Another one may still owe its value.
    ...(pending && !isPending && { pending }),
    calls: { ...own.calls, [call.id]: call.at },
    values: call.value === undefined ? own.values : { ...own.values, [call.id]: call.value },
    late: next?.dueAt !== undefined && call.at > next.dueAt ? [...own.late, call.id] : own.late,
  }
  const running: RunState = { ...state, watches: { ...state.watches, [watch.id]: change } }
  const behind = isPending ? pending?.behind : undefined
  if (behind) return taken(pack, running, watch, behind, { wasAsked: true })
  const label = next?.call.label ?? ''
  const elapsed = seconds(call.at - own.beganAt)
  const { timesAloud } = state.settings
  const reply = next?.call.reply === undefined ? [] : [say.reply(next.call.reply)]
  if (nextCall(watch, change)) {
    if (timesAloud) return sayAndListen(pack, running, [say.calledAt(label, elapsed), ...reply], { tone: 'tick' })
    if (reply.length > 0) return sayAndListen(pack, running, reply, { tone: 'tick' })
    return wasAsked ? sayAndListen(pack, running, [], { tone: 'tick' }) : toned(running, 'tick')
  }
  const done = withWatch({ ...running, wordsAfterWatch: [] }, watch.id, { status: 'done' })
  const words = say.lastCalled(watch.name, label, timesAloud ? elapsed : undefined)
  return enter(pack, done, nextFloor(pack, done), { words: [...reply, words, ...state.wordsAfterWatch], tone: 'tick' })
}
