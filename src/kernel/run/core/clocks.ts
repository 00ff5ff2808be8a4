/** Times that run: interlocks that wait for time alone, each announced when it is up. All are differences of clock times. */

import { holds } from '../../figures/condition.ts'
import type { Activity, Item, Pack, Step } from '../../pack/checklist.ts'
import type { Interlock } from '../../pack/condition.ts'
import { watchesOf, watchTimer } from '../watch/watchTiming.ts'
import type { Effect } from './events.ts'
import type { RunState } from './state.ts'

/** Something that has to wait for a time: an item, a step or a watch. Times are ms from the start of the run. */
export interface RunningClock {
  readonly of: string
  /** As shown and spoken: "auxiliary power unit". */
  readonly label: string
  readonly until: number
  /** What is said when the time is up, where the pack has words for it. */
  readonly due?: string
}

interface Timed {
  readonly id: string
  readonly label: string
  readonly interlocks: readonly Interlock[]
  readonly isOpen: (state: RunState) => boolean
}

/** All of a pack that interlocks with a time block; looked for once. */
const timedByPack = new WeakMap<Pack, readonly Timed[]>()

function timedOf(pack: Pack): readonly Timed[] {
  const known = timedByPack.get(pack)
  if (known) return known
  const found = pack.phases.flatMap(({ activities }) => activities.flatMap(timedIn))
  const all = found.filter(({ interlocks }) => interlocks.length > 0)
  timedByPack.set(pack, all)
  return all
}

function timedIn(activity: Activity): Timed[] {
  if (activity.type === 'list') {
    const items = activity.entries.filter((entry) => entry.type === 'item')
    return items.map((item) => timed(item.id, item.challenge, item.interlocks, (state) => isItemOpen(state, item)))
  }
  if (activity.type === 'flow') {
    return activity.steps.map((step) => timed(step.id, step.text, step.interlocks, (state) => isStepOpen(state, step)))
  }
  if (activity.type !== 'watch') return []
  return [timed(activity.id, activity.name, activity.interlocks, (state) => isWatchAhead(state, activity.id))]
}

function timed(
  id: string,
  label: string,
  interlocks: readonly Interlock[] | undefined,
  isOpen: Timed['isOpen'],
): Timed {
  return { id, label, interlocks: (interlocks ?? []).filter(({ seconds }) => seconds !== undefined), isOpen }
}

function isItemOpen(state: RunState, item: Item): boolean {
  const status = state.items[item.id]?.status
  return holds(item.when, state) && status !== 'done' && status !== 'passed'
}
const isStepOpen = (state: RunState, step: Step) => holds(step.when, state) && !state.stepsDone.includes(step.id)
const isWatchAhead = (state: RunState, id: string) => (state.watches[id]?.status ?? 'ahead') === 'ahead'

/** Clocks that were started and still matter, those past their time among them. */
function startedClocks(pack: Pack, state: RunState): RunningClock[] {
  const blocked = timedOf(pack).flatMap(({ id, label, interlocks, isOpen }): RunningClock[] => {
    const ends = interlocks.flatMap(({ after, seconds = 0, due }) => {
      const since = state.doneAt[after]
      return since === undefined ? [] : [{ until: since + seconds * 1_000, due }]
    })
    const last = ends.sort((a, b) => b.until - a.until)[0]
    if (!last || ends.length < interlocks.length || !isOpen(state)) return []
    return [{ of: id, label, until: last.until, ...(last.due !== undefined && { due: last.due }) }]
  })
  const again = watchesOf(pack).flatMap(({ id, name }): RunningClock[] => {
    const { status, notBefore } = state.watches[id] ?? { status: 'ahead' }
    return notBefore && status !== 'done' ? [{ of: id, label: name, until: notBefore.until }] : []
  })
  return [...blocked, ...again]
}

/** Clocks that still run at the time of the last event. */
export function runningClocks(pack: Pack, state: RunState): RunningClock[] {
  return startedClocks(pack, state).filter(({ until }) => until > state.t)
}

/** Clocks whose end is to be announced: the pack says so, or the pilot asked too early. */
function toAnnounce(pack: Pack, state: RunState): RunningClock[] {
  return startedClocks(pack, state).filter(
    ({ of, until, due }) =>
      (due !== undefined || state.waitedFor.includes(of)) && !state.timesAnnounced.includes(announcedAs(of, until)),
  )
}

/** The clock of a thing, if its time is up and was not announced yet. */
export function clockDue(pack: Pack, state: RunState, of: string): RunningClock | undefined {
  return toAnnounce(pack, state).find((clock) => clock.of === of && clock.until <= state.t)
}

const announcedAs = (of: string, until: number) => `${of}@${until}`

/** What was announced, where all times have become so much later. */
export function announcedLater(announced: readonly string[], ms: number): string[] {
  return announced.map((one) => {
    const at = one.lastIndexOf('@')
    return announcedAs(one.slice(0, at), Number(one.slice(at + 1)) + ms)
  })
}

/** Notes that its end was announced, which happens once. */
export function withAnnounced(state: RunState, { of, until }: RunningClock): RunState {
  return {
    ...state,
    timesAnnounced: [...state.timesAnnounced, announcedAs(of, until)],
    waitedFor: state.waitedFor.filter((other) => other !== of),
  }
}

/** Nothing is said of times that are up already. */
export function withPastAnnounced(pack: Pack, state: RunState): RunState {
  return startedClocks(pack, state)
    .filter(({ until }) => until <= state.t)
    .reduce(withAnnounced, state)
}

/** The timer of the first of them. */
function clockTimer(pack: Pack, state: RunState): Effect[] {
  const next = toAnnounce(pack, state).sort((a, b) => a.until - b.until)[0]
  if (!next) return []
  const event = { type: 'timeUp', of: next.of } as const
  return [{ type: 'startTimer', timer: 'interlock', ms: Math.max(0, next.until - state.t), event }]
}

/** What a running time will say next, and when: the same key is the same timer. */
function timersAt(pack: Pack, state: RunState): { effects: readonly Effect[]; key: string } {
  if (state.status !== 'running') return { effects: [], key: '' }
  const effects = [...watchTimer(pack, state), ...clockTimer(pack, state)]
  const keys = effects.map((effect) =>
    effect.type === 'startTimer' ? `${JSON.stringify(effect.event)}@${effect.ms + state.t}` : '',
  )
  return { effects, key: keys.join() }
}

/**
 * Timers of all that runs, besides what an event asked for: started before anything is said, since speech would make
 * them late; again wherever timers were stopped; and where they have changed.
 */
export function withTimers(pack: Pack, before: RunState, state: RunState, effects: readonly Effect[]): Effect[] {
  const { effects: timers, key } = timersAt(pack, state)
  const stops = effects.findIndex(({ type }) => type === 'stopTimers')
  if (stops < 0 && key === timersAt(pack, before).key) return [...effects]
  return [...effects.slice(0, stops + 1), ...timers, ...effects.slice(stops + 1)]
}
