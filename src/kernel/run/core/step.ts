/**
 * The runner: `(state, event) -> state` and the effects to perform. It performs none itself, and
 * storing comes before all of them. What is tested here is what runs live.
 */

import type { Pack } from '../../pack/checklist.ts'
import { findItem } from '../../pack/place.ts'
import { answered, closeItem } from '../list/answering.ts'
import { flowAsked, flowClosed, stepDone } from '../list/flows.ts'
import { listCalled } from '../list/listCalls.ts'
import { breakOver, withPartner, withPlan } from '../partner/noting.ts'
import { objected } from '../partner/objecting.ts'
import { accepted, challenged, lastAccepted } from '../partner/roles.ts'
import { briefed, briefingEnded } from '../talk/briefing.ts'
import { slipWentBy, transmitted } from '../talk/exchanging.ts'
import { radioed, withRadio } from '../talk/relaying.ts'
import { exchangeAt, findTurn, pendingTurn, turnState, unrecorded, withTurn } from '../talk/talk.ts'
import { notUnderstood, called as watchCalled } from '../watch/calling.ts'
import * as watching from '../watch/watching.ts'
import { withAgain } from './again.ts'
import { afterWatch } from './announce.ts'
import { askAgain, tooSoonToAsk } from './askingAgain.ts'
import { begunAt } from './begunAt.ts'
import { clockDue, withAnnounced, withTimers } from './clocks.ts'
import { commanded } from './commanding.ts'
import { crossCheckAsked } from './crossChecking.ts'
import { earChanged } from './earChanging.ts'
import { emptyRun } from './emptyRun.ts'
import type { By, Effect, RunEvent } from './events.ts'
import { thawedBy, thawedEvent, unfrozen, withFreeze } from './freezing.ts'
import { injected } from './injecting.ts'
import { stamped, unmet } from './interlocks.ts'
import { withReturn } from './interruption.ts'
import { letGo } from './lateCatch.ts'
import { enter, sayAndListen, timers } from './listening.ts'
import { advance, nextFloor } from './moving.ts'
import { notYet } from './notYet.ts'
import { ownValueBegun, ownValueSaid } from './ownValue.ts'
import { paperHandled, sheetCame } from './papersCame.ts'
import { say } from './phrases.ts'
import { itemState, withItem } from './progress.ts'
import { reopen } from './reopening.ts'
import { revised } from './revising.ts'
import type { RunState, Step } from './state.ts'

/**
 * What one event brings about. `before` is the state at the event before it; the event's `t` is the only clock. Events of a
 * log that are folded in order give the state that the run had; effects are for live runs alone.
 * Throws where the event or the state names what the pack does not have, as "pack marram has no item x": a log of another
 * pack, or a bug.
 */
export function step(pack: Pack, was: RunState, stored: RunEvent): Step {
  if ('item' in stored) findItem(pack, stored.item)
  const event = thawedEvent(was, stored)
  const before = thawedBy(was, event)
  const now: RunState = { ...before, seq: event.seq, t: event.t }
  const happened = event.type === 'unfrozen' ? unfrozen(pack, was, now) : outcomeOf(pack, withPlan(now), event)
  const returned = withReturn(pack, before, happened, event)
  const gone = withAgain(pack, before, withPartner(pack, before, returned, event), event)
  const { state, effects } = withFreeze(pack, before, gone, event)
  const after = stamped({ ...state, notUnderstood: notUnderstoodAfter(before, event) }, event.t)
  if (after.frozen) return { state: after, effects }
  return { state: after, effects: withRadio(pack, after, withTimers(pack, before, after, effects)) }
}

function outcomeOf(pack: Pack, state: RunState, event: RunEvent): Step {
  switch (event.type) {
    case 'runStarted': {
      const { settings, situation, startedAt, script, again, drill, dial } = event
      // Whose words stations use is a situation that every pack has: some things are said in one phraseology only.
      const inWords = { ...situation, radio: settings.radio ?? 'icao' }
      const begun: RunState = {
        ...{ ...state, status: 'running', settings, situation: inWords, startedAt, script },
        ...(drill && { drill: true as const }),
        ...(dial && { dial }),
      }
      const anew = { activity: undefined, misses: 0, isOver: false, isWaiting: false }
      return { state: again ? { ...begun, again: { ...again, ...anew } } : begun, effects: [] }
    }
    case 'begunAt':
      return begunAt(pack, state, event)
    case 'demonstrated':
      return demonstrated(state, event)
    case 'frozen':
      return { state, effects: [{ type: 'shut' }, { type: 'stopTimers' }] }
    case 'unfrozen':
      return { state, effects: [] }
    case 'figuresRevised':
      return revised(pack, state, event)
    case 'sheetCame':
      return sheetCame(pack, state, event)
    case 'paperHandled':
      return paperHandled(state, event)
    case 'padWritten':
      return { state: { ...state, pad: { text: event.text, strokes: event.strokes } }, effects: [] }
    case 'crossCheckAsked':
      return crossCheckAsked(pack, state, event)
    case 'stated':
      return { state: { ...state, question: undefined }, effects: [] }
    case 'ownValueSaid':
      return ownValueSaid(pack, { ...state, standingBy: false }, event)
    case 'ownValueBegun':
      return ownValueBegun(pack, { ...state, standingBy: false }, event)
    case 'situationSet':
      return situated(pack, { ...state, situation: { ...state.situation, [event.name]: event.value } }, event)
    case 'cleared':
      return cleared(pack, { ...state, cleared: [...new Set([...state.cleared, event.clearance])] })
    case 'listCalled':
      return listCalled(pack, lastAccepted(pack, state, event), event.list)
    case 'stepDone':
      return stepDone(pack, state, event)
    case 'flowClosed':
      return flowClosed(pack, state, event)
    case 'flowAsked':
      return flowAsked(pack, state)
    case 'answered':
      // An answer closes only the open item, and only on the figures in force.
      return hasFloor(state, event.item) && event.revision === state.revision
        ? answered(pack, state, event)
        : { state, effects: [] }
    case 'confirmedByKey': {
      if (!hasFloor(state, event.item)) return { state, effects: [] }
      const { item, list } = findItem(pack, event.item)
      const { by } = event.evidence
      const { expected, revision } = event
      const blockedBy = unmet(pack, state, item.interlocks, event.t)
      if (blockedBy) return notYet(pack, state, item.id, blockedBy)
      return advance(pack, closeItem(state, item, { status: 'done', by, expected, revision }), list.id, {
        tone: 'tick',
      })
    }
    case 'commanded':
      return commanded(pack, state, event)
    case 'voided':
      return event.because === 'onsetCut' ? cutAnswered(pack, state, event.item) : { state, effects: [] }
    case 'overheard':
      return overheard(pack, state, event)
    case 'transmitted':
      return transmitted(pack, state, event)
    case 'briefed':
      return briefed(pack, state, event)
    case 'briefingEnded':
      return briefingEnded(pack, state, event)
    case 'wordsShown':
      return { state: withTurn(state, event.turn, { shown: true }), effects: timers(state) }
    case 'radioed':
      return radioed(pack, state, event)
    case 'faultPlanned':
    case 'breakPlanned':
      return { state, effects: [] }
    case 'injected':
      return injected(pack, state, event)
    case 'breakOver':
      return breakOver(state)
    case 'challenged':
      return challenged(pack, state, event)
    case 'accepted':
      return accepted(pack, state, event)
    case 'objected':
      return objected(pack, state, event)
    case 'watchBegan':
      return watching.began(pack, state, event)
    case 'watchCalled':
      return watchCalled(pack, state, event)
    case 'watchStopped':
      return watching.stopped(pack, state, event)
    case 'watchDue':
      return watching.due(pack, state, event)
    case 'timeUp':
      return timeUp(pack, state, event.of)
    case 'silent':
      return event.order === state.listenId ? silent(pack, state, event.after) : { state, effects: [] }
    case 'resumed':
      return resume(pack, hearing(state))
    case 'earFailed':
      return earChanged(pack, state, event.typing ? '' : say.deaf(), 'deaf')
    case 'earBack':
      return earChanged(pack, hearing(state), say.hearsAgain(), 'tick')
    case 'voiceFailed':
      return { state, effects: [] }
    case 'stopped':
      return {
        state: { ...state, status: 'stopped', stoppedBecause: event.message },
        effects: [{ type: 'shut' }, { type: 'stopTimers' }],
      }
    case 'ended':
      return { state: { ...state, status: 'ended' }, effects: [{ type: 'shut' }, { type: 'stopTimers' }] }
  }
}

function demonstrated(before: RunState, { isOn, stops, asksRoom }: RunEvent<'demonstrated'>): Step {
  const { demonstration: _, ...state } = before
  if (!isOn) return { state, effects: timers(before) }
  return { state: { ...state, demonstration: { stops, asksRoom }, wasDemonstrated: true }, effects: timers(before) }
}

/** Of a start it is asked for again, and whatever was typed; a call to another station has to wait; anything else changes nothing. */
function overheard(pack: Pack, state: RunState, event: RunEvent<'overheard'>): Step {
  const { watch, first, unchallenged, meant, evidence } = event
  if (unchallenged) return sayAndListen(pack, state, [say.yourChallenge()])
  if (watch !== undefined && !meant) return sayAndListen(pack, state, [], { tone: 'tick' })
  const isMeant =
    meant && (watch !== undefined || (evidence.by === 'typed' && first === undefined && !state.standingBy))
  if (isMeant) return notUnderstood(pack, state, evidence.by)
  if (first === undefined) return { state, effects: timers(state) }
  return sayAndListen(pack, state, [say.notYet(findTurn(pack, first).turn.label)], { tone: 'attention' })
}

/** It stands until something is made of what the pilot says or does. */
function notUnderstoodAfter({ notUnderstood }: RunState, event: RunEvent): string | undefined {
  if (event.type === 'overheard')
    return event.meant && event.first === undefined && !event.unchallenged ? event.evidence.text : notUnderstood
  if (event.type === 'commanded' && event.meant) return event.evidence.text
  return 'evidence' in event || event.type === 'figuresRevised' ? undefined : notUnderstood
}

const hearing = ({ isDeafened: _, ...state }: RunState): RunState => state

/** Its first word may be missing: it is not judged. */
function cutAnswered(pack: Pack, state: RunState, id: string): Step {
  const { challenge } = findItem(pack, id).item
  const { sayAgains } = itemState(state, id)
  const counted = withItem(state, id, { sayAgains: sayAgains + 1 })
  return tooSoonToAsk(pack, state, 'voice') ?? askAgain(pack, counted, [say.sayAgain(challenge)])
}

function hasFloor(state: RunState, item: string): boolean {
  return state.floor.at === 'item' && state.floor.item === item
}

/** All events of a run, folded; what they asked for at the time is not asked for again. */
export function fold(pack: Pack, runId: string, events: readonly RunEvent[]): RunState {
  return events.reduce((state, event) => step(pack, state, event).state, emptyRun(runId))
}

type SituationSet = RunEvent<'situationSet'>

/** What applies may have changed at the open place, and other answers may be asked for. */
function situated(pack: Pack, asked: RunState, { name, value, evidence }: SituationSet): Step {
  const before = decided(pack, asked, name, evidence.by)
  const told = letGo(pack, before)
  const { state, challenges, lists } = reopen(pack, told.state)
  if (state.figureStatus === undefined) return { state, effects: [] }
  const { label = '', options = [] } = pack.situations.find((one) => one.name === name) ?? {}
  const option = options.find((one) => one.value === value)?.label ?? ''
  const words = [
    // Said aloud it is echoed, so that a misheard one is noticed.
    evidence.by === 'voice' || evidence.by === 'typed' ? say.situation(label, option) : '',
    ...told.words,
    challenges.length > 0 ? say.openAgain(challenges) : '',
    ...lists.map((list) => say.revoked(list)),
  ]
  const { floor } = state
  const waits = afterWatch(pack, state, words)
  if (waits) return waits
  return floor.at === 'item' || floor.at === 'line'
    ? advance(pack, state, floor.list, { words })
    : enter(pack, state, nextFloor(pack, state), { words })
}

/** The open question asked for just this: it is answered. */
function decided(pack: Pack, state: RunState, name: string, by: By): RunState {
  const { floor, revision } = state
  const item = floor.at === 'item' ? findItem(pack, floor.item).item : undefined
  if (item?.decides?.situation !== name) return state
  return closeItem({ ...state, standingBy: false }, item, { status: 'done', by, revision })
}

function cleared(pack: Pack, state: RunState): Step {
  const { floor } = state
  if (floor.at !== 'line') return { state, effects: timers(state) }
  return advance(pack, { ...state, standingBy: false }, floor.list, {
    words: [say.belowTheLine()],
    tone: 'tick',
  })
}

/** Asked once more, then a soft tone, then the screen only; silence never moves anything on. */
function silent(pack: Pack, state: RunState, after: 'prompt' | 'tone'): Step {
  const exchange = exchangeAt(pack, state.floor)
  const pending = exchange && pendingTurn(exchange, state)
  if (pending && turnState(state, pending.id).status === 'slipped') return slipWentBy(pack, state, pending)
  if (after === 'tone') return { state, effects: [{ type: 'tone', tone: 'soft' }] }
  return sayAndListen(pack, { ...state, promptedListenId: state.listenId + 1 }, [], { prompt: true })
}

/** The time of an interlock is up: the pilot asked for it too early, or the pack announces it. */
function timeUp(pack: Pack, before: RunState, of: string): Step {
  const clock = clockDue(pack, before, of)
  if (!clock) return { state: before, effects: [] }
  const wasWaitedFor = before.waitedFor.includes(of)
  const state = withAnnounced(before, clock)
  const words = clock.due === undefined ? [] : [say.due(clock.due)]
  const waits = afterWatch(pack, state, words)
  if (waits) return waits
  // What is due names itself; the open item was asked for before.
  const isPrompted = clock.due === undefined && (wasWaitedFor || state.floor.at === 'item')
  return sayAndListen(pack, state, words, { prompt: !state.standingBy && isPrompted })
}

/** After a reload, or after a bug: what is open is put once more, and nothing is performed twice. */
export function resume(pack: Pack, { stoppedBecause: _, ...before }: RunState): Step {
  const state: RunState = { ...before, status: 'running' }
  const { floor } = state
  // The challenge is put anew: what was said of it before the break has to be said again.
  const fresh = floor.at === 'item' ? withItem(state, floor.item, { partsSoFar: [], begun: {} }) : state
  const step = sayAndListen(pack, { ...fresh, standingBy: false }, [], { prompt: true })
  return { state: step.state, effects: [...step.effects, ...unrecordedValues(pack, state)] }
}

/** Values that a station gave and that the page was left before they came into the figures. */
function unrecordedValues(pack: Pack, state: RunState): Effect[] {
  return Object.keys(state.turns).flatMap((id): Effect[] => {
    const { turn: given } = findTurn(pack, id)
    if (turnState(state, id).status !== 'done') return []
    const values = unrecorded(given, state)
    return Object.keys(values).length > 0 ? [{ type: 'recordFromStation', turn: id, values }] : []
  })
}
