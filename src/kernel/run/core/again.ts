/**
 * That moment again: a run that begins with the events of another one and goes on from there. It is over once what was open
 * there (a list, an exchange, an engine start, a briefing) is left. How it went is told beside the last time, and the pilot
 * may go on.
 */

import type { Pack } from '../../pack/checklist.ts'
import { activityById } from '../../pack/place.ts'
import { isMiss, type Judgement } from '../../response/model.ts'
import { letGoSince } from '../partner/partner.ts'
import { wrongTopicsIn } from '../talk/briefing.ts'
import { turnState } from '../talk/talk.ts'
import { watchState } from '../watch/watchTiming.ts'
import type { RunEvent } from './events.ts'
import { sayAndListen } from './listening.ts'
import { activityAt, isAhead } from './moving.ts'
import { onsetOf } from './onset.ts'
import { say } from './phrases.ts'
import { itemState } from './progress.ts'
import { isSeam } from './seam.ts'
import type { AgainState, RunState, Step, WatchState } from './state.ts'

/** Counts what was missed, and says how it went once the moment is over. */
export function withAgain(pack: Pack, before: RunState, { state, effects }: Step, event: RunEvent): Step {
  if (!before.again || event.seq <= before.again.seq) return { state, effects }
  const begun: AgainState = isSeam(before, event)
    ? { ...before.again, activity: activityAt(pack, before.floor)?.id }
    : before.again
  const isWaiting = begun.isWaiting && state.standingBy
  if (begun.isOver) return { state: { ...state, again: { ...begun, isWaiting } }, effects }
  const activity = followed(before, state, event, begun.activity)
  const counted = { ...begun, activity, misses: begun.misses + missesIn(before, state, event) }
  if (!isLeft(pack, state, activity)) return { state: { ...state, again: counted }, effects }
  // Before that they may still be noticed.
  const again = { ...counted, misses: counted.misses + letGoSince(state, begun.seq) }
  const over: RunState = { ...state, standingBy: true, again: { ...again, isOver: true, isWaiting: true } }
  const { misses, lastMisses } = again
  const stations = effects.flatMap((effect) =>
    effect.type === 'speak' && effect.role !== 'otherseat' ? [{ role: effect.role, text: effect.text }] : [],
  )
  const told = sayAndListen(pack, over, [say.againOver(misses, lastMisses)], { stations })
  return {
    state: told.state,
    effects: [...told.effects, ...effects.filter(({ type }) => type === 'recordFromStation')],
  }
}

/** Whoever begins a start leaves what stood before it for the start. */
export function followed(before: RunState, after: RunState, event: RunEvent, activity: string | undefined) {
  const isBegun = event.type === 'watchBegan' && watchState(after, event.watch).status === 'running'
  return isBegun && watchState(before, event.watch).status !== 'running' ? event.watch : activity
}

/**
 * It is done, or the run has come to what it waits for. New figures that send the pilot elsewhere first do not end a list,
 * nor does "stop" a start: that is made again.
 */
export function isLeft(pack: Pack, state: RunState, id: string | undefined): boolean {
  const { floor } = state
  const activity = id === undefined ? undefined : activityById(pack, id)
  if (!activity) return false
  if (!isAhead(state, activity)) return true
  if (activity.type === 'watch') return false
  if (activity.type === 'list') return floor.at === 'line' || floor.at === 'exchange'
  return activityAt(pack, floor) !== activity
}

/**
 * How many misses an event brings, as the debrief counts them: a wrong or half answer, something refused as too early, a
 * wrong topic, a call of a start that was not as it should be. Less than none where the rest of a half read-back comes at
 * once.
 */
export function missesIn(before: RunState, after: RunState, event: RunEvent): number {
  if (event.type === 'briefed') {
    const isRefused = event.ends === true && !after.briefingsClosed.includes(event.briefing)
    return wrongTopicsIn(before, event).length + (isRefused ? 1 : 0)
  }
  const regained = event.type === 'transmitted' && isSecondBreath(before, event) ? 1 : 0
  return (isMissed(before, after, event) ? 1 : deviations(before, after)) - regained
}

/** ms to its onset. A second breath begins sooner than what is said after the station has asked. */
export const BREATH_MS = 2_000

function isSecondBreath(before: RunState, event: RunEvent<'transmitted'>): boolean {
  const { last, activeAt } = before
  const isSame = last?.item === event.turn && last.of !== undefined
  return isSame && onsetOf(before, event) - activeAt <= BREATH_MS && isGoneOn(last.judgement, event.judgement)
}

/** Half, and what was said next was right as far as it went. What came without a value had no half of it. */
export function isGoneOn({ verdict, because }: Judgement, next: Judgement): boolean {
  const isHalf = verdict === 'incomplete' && because !== 'acknowledged' && because !== 'valueless'
  return isHalf && next.verdict !== 'negative' && next.verdict !== 'sayAgain'
}

function isMissed(before: RunState, after: RunState, event: RunEvent): boolean {
  switch (event.type) {
    case 'answered':
    case 'transmitted': {
      if (isMiss(event.judgement)) return true
      if (event.judgement.verdict !== 'correct') return false
      // Right, and refused: something had to come first.
      return event.type === 'answered'
        ? itemState(after, event.item).status !== 'done' && itemState(before, event.item).status !== 'done'
        : JSON.stringify(turnState(after, event.turn)) === JSON.stringify(turnState(before, event.turn))
    }
    case 'stepDone':
      return !after.stepsDone.includes(event.step)
    case 'flowClosed':
      return !after.flowsClosed.includes(event.flow)
    case 'watchBegan':
      return watchState(after, event.watch).status !== 'running'
    case 'briefingEnded':
      return !after.briefingsClosed.includes(event.briefing)
    default:
      return false
  }
}

/** Calls of starts with which something is wrong now; a start that is begun again has all of them before it. */
function deviations(before: RunState, after: RunState): number {
  return Object.entries(after.watches)
    .map(([id, now]) => {
      const was = before.watches[id]
      return deviating(now).size - (was?.attempt === now.attempt ? deviating(was).size : 0)
    })
    .reduce((sum, one) => sum + one, 0)
}

const deviating = ({ late, unheard, early, outside, unfit, ahead = {} }: WatchState): ReadonlySet<string> =>
  new Set([late, unheard, ...[early, outside, unfit, ahead].map(Object.keys)].flat())
