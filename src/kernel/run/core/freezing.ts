/**
 * A run that is demonstrated to a room can be frozen: nothing is said, heard or timed until it goes on. It freezes by a key,
 * or by itself at an answer; what was to be said then is kept, and said when it goes on.
 */

import type { Pack } from '../../pack/checklist.ts'
import { withTurn } from '../talk/talk.ts'
import { announcedLater } from './clocks.ts'
import type { DemonstrationStops, Effect, RunEvent } from './events.ts'
import { canWait, isForRoom, isMissed } from './forRoom.ts'
import { sayAndListen } from './listening.ts'
import { withItem } from './progress.ts'
import type { RunState, Step, WatchState } from './state.ts'

/** The state before an event that goes on: whatever the pilot does ends a freeze, and its time has not passed for the run. */
export function thawedBy(state: RunState, event: RunEvent): RunState {
  const goesOn = event.type === 'unfrozen' || 'evidence' in event
  return state.frozen && goesOn ? thawed(state, event.t - state.frozen.since) : state
}

/** A call that waited for its verdict was made when the run froze, or before: its time has moved on with those of the run. */
export function thawedEvent<Event extends RunEvent>({ frozen }: RunState, event: Event): Event {
  const isTimed = event.type === 'watchBegan' || event.type === 'watchCalled' || event.type === 'watchStopped'
  if (!frozen || !isTimed) return event
  return { ...event, at: Math.min(event.at, frozen.since) + event.t - frozen.since }
}

/** All that runs in time goes on where it stopped, `ms` later. */
function thawed({ frozen: _, ...state }: RunState, ms: number): RunState {
  const later = <T extends Readonly<Record<string, number>>>(times: T) =>
    Object.fromEntries(Object.entries(times).map(([name, at]) => [name, at + ms]))
  const watches = Object.entries(state.watches).map(([id, watch]) => {
    if (watch.status !== 'running' && !watch.notBefore) return [id, watch] as const
    const { beganAt, calls, early, outside, pending, stoppedAt, notBefore } = watch
    const behind = pending?.behind && { behind: { ...pending.behind, at: pending.behind.at + ms } }
    return [
      id,
      {
        ...watch,
        beganAt: beganAt + ms,
        calls: later(calls),
        early: later(early),
        outside: readLater(outside, ms),
        ...(pending && { pending: { ...pending, at: pending.at + ms, ...behind } }),
        ...(stoppedAt !== undefined && { stoppedAt: stoppedAt + ms }),
        ...(notBefore && { notBefore: { ...notBefore, until: notBefore.until + ms } }),
      },
    ] as const
  })
  return {
    ...state,
    watches: Object.fromEntries(watches),
    doneAt: later(state.doneAt),
    timesAnnounced: announcedLater(state.timesAnnounced, ms),
    activeAt: state.activeAt + ms,
  }
}

const readLater = (outside: WatchState['outside'], ms: number): WatchState['outside'] =>
  Object.fromEntries(
    Object.entries(outside).map(([call, read]) => [call, read.map(({ value, at }) => ({ value, at: at + ms }))]),
  )

/** It goes on: what was kept back is said now; where nothing was, what is open is put once more. */
export function unfrozen(pack: Pack, { frozen }: RunState, state: RunState): Step {
  const kept = frozen?.effects ?? []
  if (kept.length === 0) return sayAndListen(pack, state, [], { prompt: true })
  return { state, effects: [{ type: 'shut' }, { type: 'stopTimers' }, ...kept] }
}

/** Keeps back what an event brings while the run is frozen, and freezes it where an answer is to be looked at. */
export function withFreeze(pack: Pack, before: RunState, { state, effects }: Step, event: RunEvent): Step {
  if (event.type === 'frozen') {
    const { t: since, said } = event
    const { listenId } = state
    const frozen = { since, effects: [], ...(said && { said: { ...said, listenId } }) }
    return { state: { ...(said ? state : given(state)), frozen }, effects }
  }
  const isStop = stopsAt(before, state, event)
  if (isStop && !effects.some(({ type }) => type === 'listen'))
    return withFreeze(pack, before, listeningAnew(pack, { state, effects }), event)
  const { frozen = isStop ? { since: event.t, effects: [] } : undefined } = state
  if (!frozen || state.status !== 'running') return { state, effects }
  const kept = effects.filter(isKept)
  const isAnew = kept.some(({ type }) => type === 'listen')
  const held = isAnew ? frozen.effects.filter(({ type }) => type === 'speak') : frozen.effects
  return {
    state: { ...(isStop ? given(state) : state), frozen: { ...frozen, effects: [...held, ...kept] } },
    effects: effects.filter((effect) => !isKept(effect)),
  }
}

/** A call that was right and a topic that was covered leave the ear open: it shuts for the freeze, and opens again behind it. */
function listeningAnew(pack: Pack, { state, effects }: Step): Step {
  const anew = sayAndListen(pack, state, [])
  const opens = ({ type }: Effect) => type === 'listen' || type === 'startTimer'
  return {
    state: anew.state,
    effects: [
      ...anew.effects.filter((effect) => !opens(effect)),
      ...effects.filter(({ type }) => type !== 'startTimer'),
      ...anew.effects.filter(opens),
    ],
  }
}

/** Tones tell at once how it was, and what a station gave is in force. */
const isKept = ({ type }: Effect): boolean => type === 'speak' || type === 'listen' || type === 'startTimer'

function stopsAt(before: RunState, after: RunState, event: RunEvent): boolean {
  const { demonstration, status } = after
  if (!demonstration || status !== 'running' || !isForRoom(event) || !canWait(event.type)) return false
  const isStop: Readonly<Record<DemonstrationStops, () => boolean>> = {
    answers: () => true,
    misses: () => isMissed(before, after, event),
    never: () => false,
  }
  return isStop[demonstration.stops]()
}

/** The room sees what would have been right beside what was wrong: whoever answers again has been given it (law 4). */
function given(state: RunState): RunState {
  const { last, demonstration } = state
  const isWrong = last?.judgement.parts.some((part) => part.state === 'wrong')
  if (!demonstration || !last || !isWrong) return state
  if (last.of === undefined) return withItem(state, last.item, { revealed: true })
  return last.of === 'call' || last.of === 'readBack' ? withTurn(state, last.item, { shown: true }) : state
}
