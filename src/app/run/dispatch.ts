/**
 * The one door for everything that happens in a run: one event at a time; step, append, set, perform.
 * An event that comes during another waits, and an utterance is judged when its turn has come.
 */

import type { Heard } from '../../kernel/hearing/heard.ts'
import { happeningFor } from '../../kernel/interpret/hear.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Effect, Happening, RunEvent } from '../../kernel/run/core/events.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { step } from '../../kernel/run/core/step.ts'
import type { Clock, RunLog } from '../../ports.ts'

export interface Dispatch {
  /** Resolves when the event is stored and its effects are under way. */
  happen(happening: Happening | ((state: RunState) => Happening | undefined)): Promise<void>
  hear(heard: Heard): Promise<void>
  readonly state: () => RunState
  readonly events: () => readonly RunEvent[]
}

export interface DispatchParts {
  readonly pack: Pack
  readonly log: RunLog
  readonly clock: Clock
  /** The state and events to go on from. */
  readonly state: RunState
  readonly events: readonly RunEvent[]
  readonly perform: (effects: readonly Effect[]) => void
  readonly changed: (state: RunState, event: RunEvent) => void
  /** The log can no longer be kept: the run goes on in memory and the pilot is told. */
  readonly logLost: (message: string) => void
}

export function createDispatch(parts: DispatchParts): Dispatch {
  let state = parts.state
  const events: RunEvent[] = [...parts.events]
  let isKept = true
  let queue: Promise<void> = Promise.resolve()
  const startedAt = events[0] ? Date.parse(events[0].wall) : parts.clock.now()

  async function store(event: RunEvent): Promise<void> {
    events.push(event)
    if (!isKept) return
    try {
      await parts.log.append(event)
    } catch (error) {
      isKept = false
      parts.logLost(error instanceof Error ? error.message : String(error))
    }
  }

  async function commit(happening: Happening): Promise<void> {
    const now = parts.clock.now()
    const stamp = {
      v: 1,
      seq: state.seq + 1,
      runId: state.runId,
      t: now - startedAt,
      wall: new Date(now).toISOString(),
    } as const
    const event: RunEvent = { ...stamp, ...happening }
    let next: ReturnType<typeof step>
    try {
      next = step(parts.pack, state, event)
    } catch (error) {
      // A bug. Nothing that threw is taken for an answer: the item stays open and listening stops.
      if (happening.type === 'stopped') throw error
      return commit({ type: 'stopped', message: error instanceof Error ? error.message : String(error) })
    }
    await store(event)
    state = next.state
    parts.changed(state, event)
    parts.perform(next.effects)
  }

  function inTurn(work: () => Promise<void>): Promise<void> {
    const turn = queue.then(work)
    queue = turn.catch(() => undefined)
    return turn
  }

  return {
    happen: (happening) =>
      inTurn(async () => {
        const what = typeof happening === 'function' ? happening(state) : happening
        if (what) await commit(what)
      }),
    hear: (heard) =>
      inTurn(async () => {
        const happening = happeningFor(parts.pack, state, heard)
        await commit(happening)
        const isLate = happening.type === 'commanded' && happening.command === 'correction' && happening.argument
        // "Correction, five point two": the item before is open again, and this is its answer.
        if (isLate) await commit(happeningFor(parts.pack, state, { ...heard, text: isLate, order: state.order }))
      }),
    state: () => state,
    events: () => events,
  }
}
