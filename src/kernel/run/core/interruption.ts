/**
 * Breaks: stand by, a long silence at an open item, the page left. On return Otherseat says where the run
 * was and offers one item back or from the top. Waiting for a clearance, in a flow, in a watch or in an
 * exchange is none, and a page behind a simulator is the normal state.
 */

import type { Pack } from '../../pack/checklist.ts'
import { findItem, findLine, listById } from '../../pack/place.ts'
import type { Effect, EventType, RunCommand, RunEvent } from './events.ts'
import { say } from './phrases.ts'
import { isSeam } from './seam.ts'
import type { Interruption, RunState, Step } from './state.ts'

/** Longer at an open item is a break, not thought. */
const BREAK_AFTER_S = 90

/** Whether an event shows that the pilot is there. Time does not, nor speech that was not for the run. */
const IS_ACTIVITY: Readonly<Record<EventType, boolean>> = {
  runStarted: true,
  begunAt: true,
  demonstrated: false,
  frozen: false,
  unfrozen: true,
  figuresRevised: true,
  sheetCame: false,
  paperHandled: true,
  padWritten: true,
  crossCheckAsked: true,
  stated: true,
  ownValueSaid: true,
  ownValueBegun: true,
  situationSet: true,
  cleared: true,
  listCalled: true,
  stepDone: true,
  flowClosed: true,
  flowAsked: true,
  answered: true,
  voided: true,
  transmitted: true,
  briefed: true,
  briefingEnded: true,
  wordsShown: true,
  overheard: false,
  commanded: true,
  confirmedByKey: true,
  radioed: false,
  faultPlanned: false,
  breakPlanned: false,
  injected: false,
  breakOver: true,
  challenged: true,
  accepted: true,
  objected: true,
  watchBegan: true,
  watchCalled: true,
  watchStopped: true,
  watchDue: false,
  timeUp: false,
  silent: false,
  earFailed: false,
  earBack: false,
  voiceFailed: false,
  resumed: true,
  stopped: false,
  ended: false,
}

/** Who says where to go on needs no offer. */
const MOVES: ReadonlySet<RunCommand> = new Set(['stop', 'goBack', 'recheck', 'fromTop', 'standBy'])

const breakAfterMs = ({ settings }: RunState) => (settings.breakAfterS ?? BREAK_AFTER_S) * 1_000

/** What is open, as it is named. */
export function placeName(pack: Pack, { floor }: RunState): string {
  if (floor.at === 'item') return findItem(pack, floor.item).item.challenge
  if (floor.at === 'line') return findLine(listById(pack, floor.list), floor.line).label
  if (floor.at === 'end') return 'the end'
  return 'activity' in floor ? (pack.phases[floor.phase]?.activities[floor.activity]?.name ?? '') : ''
}

/** The break that ends with this event, if one does. */
function endedBreak(pack: Pack, before: RunState, after: RunState, event: RunEvent): Interruption | undefined {
  const at = placeName(pack, before)
  const of = (what: Interruption['what'], since: number): Interruption => {
    const lengthMs = event.t - since
    const isLong = what === 'left' || lengthMs > breakAfterMs(before)
    const isMove = event.type === 'commanded' && MOVES.has(event.command)
    return { what, t: since, lengthMs, at, offered: isLong && !isMove && after.floor.at === 'item' }
  }
  // A moment that is done again begins there, and at its end it waits by itself.
  if (event.type === 'resumed') return isSeam(before, event) ? undefined : of('left', before.t)
  if (before.again?.isWaiting) return undefined
  if (before.standingBy) return after.standingBy ? undefined : of('standBy', before.activeAt)
  if (before.floor.at !== 'item') return undefined
  return event.t - before.activeAt > breakAfterMs(before) ? of('break', before.activeAt) : undefined
}

/** Notes a break that is over, and puts the words of the return before what is said then. */
export function withReturn(pack: Pack, before: RunState, { state, effects }: Step, event: RunEvent): Step {
  if (!IS_ACTIVITY[event.type]) return { state, effects }
  const active: RunState = { ...state, activeAt: event.t, isBack: false }
  const over = before.status === 'running' ? endedBreak(pack, before, state, event) : undefined
  if (!over) return { state: active, effects }
  const { floor } = state
  // What has changed, and what to do about it, is said alone.
  const isNews = event.type === 'figuresRevised'
  const list = floor.at === 'item' || floor.at === 'line' ? listById(pack, floor.list).name : undefined
  const noted: RunState = { ...active, interruptions: [...state.interruptions, over], isBack: over.offered }
  if (isNews || list === undefined || (over.what === 'break' && !over.offered)) return { state: noted, effects }
  return saying(noted, effects, over.offered ? say.back(list) : say.resuming(list))
}

/** The words come first in what Otherseat says next; where it says nothing, there is nothing to put them before. */
function saying(state: RunState, effects: readonly Effect[], words: string): Step {
  const index = effects.findIndex((effect) => effect.type === 'speak' && effect.role === 'otherseat')
  const said = effects[index]
  if (said?.type !== 'speak') return { state, effects }
  const text = `${words} ${said.text}`
  return { state: { ...state, said: text }, effects: effects.with(index, { ...said, text }) }
}
