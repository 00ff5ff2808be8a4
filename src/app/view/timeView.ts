/** What of a run's times the screen shows; clock times in ms since 1970, so that a screen can count down exactly. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import { runningClocks } from '../../kernel/run/core/clocks.ts'
import type { Interruption, RunState, WatchState } from '../../kernel/run/core/state.ts'
import { openCalls, watchAt, watchState } from '../../kernel/run/watch/watchTiming.ts'

export interface ViewWatch {
  readonly status: WatchState['status']
  readonly beganAt?: number
  /** It stands still: the time at which it was stopped. */
  readonly frozenAt?: number
  /** What the hands do until its last call. */
  readonly hold?: string
  readonly calls: readonly {
    readonly label: string
    readonly state: 'called' | 'next' | 'ahead'
    readonly calledAt?: number
    /** By when it must be heard. */
    readonly dueAt?: number
    /** Read out with it: "speed 58". */
    readonly value?: string
    readonly isLate: boolean
    /** It was called sooner than it can have been seen. */
    readonly isEarly: boolean
    /** Values outside their limits that were read out with it. */
    readonly outside: readonly string[]
  }[]
  readonly actions: readonly string[]
  /** What its gauges show, where an instructor says so. */
  readonly shows?: string
}

/** A time that holds something back: "auxiliary power unit". */
export interface ViewClock {
  readonly of: string
  readonly label: string
  readonly until: number
}

/** Where the run was come back to, and after how long. */
export interface ViewBack {
  readonly what: Interruption['what']
  readonly at: string
  readonly lengthMs: number
}

/** The watch that has the floor. */
export function watchView(pack: Pack, run: RunState): { watch: ViewWatch } | undefined {
  const watch = watchAt(pack, run.floor, run)
  if (!watch) return undefined
  const state = watchState(run, watch.id)
  const open = state.status === 'running' ? openCalls(watch, state) : []
  const calls = watch.calls.map(({ id, label, value: read }): ViewWatch['calls'][number] => {
    const at = state.calls[id]
    const same = {
      label,
      isLate: state.late.includes(id),
      // What was put right since is for the debrief.
      isEarly: state.early[id] !== undefined && (at ?? 0) <= state.early[id],
      outside: (state.outside[id] ?? []).flatMap(({ value }) =>
        value === (state.values[id] ?? value) ? [String(value)] : [],
      ),
    }
    if (at !== undefined) {
      const value = state.values[id]
      const named = [read?.label, value].filter((part) => part !== undefined).join(' ')
      return { ...same, state: 'called', calledAt: run.startedAt + at, ...(value !== undefined && { value: named }) }
    }
    const next = open.find(({ call }) => call.id === id)
    if (!next) return { ...same, state: 'ahead' }
    return { ...same, state: 'next', ...(next.dueAt !== undefined && { dueAt: run.startedAt + next.dueAt }) }
  })
  const { status, actions, shows } = state
  const began = status === 'ahead' ? {} : { beganAt: run.startedAt + state.beganAt }
  const held = watch.hold === undefined ? {} : { hold: watch.hold }
  return {
    watch: { status, ...began, ...frozenView(run), ...held, calls, actions, ...(shows !== undefined && { shows }) },
  }
}

/** The time at which the run was frozen. */
export const frozenView = (run: RunState): { frozenAt: number } | undefined =>
  run.frozen && { frozenAt: run.startedAt + run.frozen.since }

export function clocksView(pack: Pack, run: RunState): ViewClock[] {
  return runningClocks(pack, run).map(({ of, label, until }) => ({ of, label, until: run.startedAt + until }))
}

export function backView(run: RunState): { back: ViewBack } | undefined {
  const last = run.isBack ? run.interruptions.at(-1) : undefined
  return last && { back: { what: last.what, at: last.at, lengthMs: last.lengthMs } }
}
