/**
 * The one door for everything that happens in a run: one event at a time; step, store, show, perform. An event that
 * comes during another waits, and an utterance is judged when its turn has come.
 *
 * Nothing is shown, said or listened for before its event is stored, or known not to be (see `record.ts`). Whatever is
 * thrown on the way is a bug: it stops the run with its message. Nothing that threw is taken for an answer, the item
 * stays open, and what the pilot said is kept with the event that stops.
 */

import type { Heard } from '../../kernel/hearing/heard.ts'
import { interpret } from '../../kernel/interpret/interpret.ts'
import { evidenceOf } from '../../kernel/interpret/utterance.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Effect, EventBody, Evidence, RunEvent } from '../../kernel/run/core/events.ts'
import { LOG_VERSION, type Replayed } from '../../kernel/run/core/readLog.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { step } from '../../kernel/run/core/step.ts'
import { plannedBefore } from '../../kernel/run/partner/plan.ts'
import type { Clock } from '../../ports.ts'
import type { RunRecord } from './record.ts'

/** What happens in view of a state, where it is asked in its turn; nothing, or several things one after another. */
export type InTurn = (state: RunState) => EventBody | readonly EventBody[] | undefined

export interface Dispatch {
  /** Resolves when it is stored and its effects are under way. Never rejects. */
  happen(what: EventBody | InTurn): Promise<void>
  /** The same; resolves to the event that it became, the first where it became several. */
  hear(heard: Heard): Promise<RunEvent | undefined>
  readonly state: () => RunState
  /** Resolves when nothing waits its turn, and what was asked for has been performed. */
  settled(): Promise<void>
}

export interface DispatchParts {
  readonly pack: Pack
  readonly record: RunRecord
  readonly clock: Clock
  /** To go on from. */
  readonly state: RunState
  readonly changed: (step: Replayed) => void
  /** Resolves when all has been performed. */
  readonly perform: (effects: readonly Effect[]) => Promise<void>
}

function evidenceIn(what: EventBody | InTurn): Evidence | undefined {
  return typeof what === 'object' && 'evidence' in what ? what.evidence : undefined
}

export function createDispatch({ pack, record, clock, changed, perform, ...parts }: DispatchParts): Dispatch {
  let { state } = parts
  let queue: Promise<void> = Promise.resolve()
  let performing: Promise<void> = Promise.resolve()
  const [first] = record.events()
  const startedAt = first ? Date.parse(first.wall) : clock.now()

  function stamped(body: EventBody): RunEvent {
    const now = clock.now()
    const { runId, seq } = state
    return { v: LOG_VERSION, seq: seq + 1, runId, t: now - startedAt, wall: new Date(now).toISOString(), ...body }
  }

  /** What has stopped goes on only where somebody takes it up again, and what has ended is over. */
  function mayHappen({ type }: EventBody): boolean {
    if (state.status === 'stopped') return type === 'resumed' || type === 'ended'
    return state.status !== 'ended'
  }

  async function commit(body: EventBody): Promise<RunEvent | undefined> {
    if (!mayHappen(body)) return undefined
    // What the partner is to do wrong in it is stored before it.
    for (const planned of plannedBefore(pack, state, stamped(body))) await commit(planned)
    const event = stamped(body)
    const before = state
    const next = step(pack, before, event)
    await record.add(event)
    state = next.state
    try {
      changed({ before, event, state })
    } finally {
      performing = perform(next.effects).catch((error) => void inTurn(() => stop(error)))
    }
    return event
  }

  /** A second bug on the way out has nobody left to tell; the first one is in the log. */
  async function stop(error: unknown, evidence?: Evidence): Promise<void> {
    if (state.status === 'stopped') return
    const message = error instanceof Error ? error.message : String(error)
    await commit({ type: 'stopped', message, ...(evidence && { evidence }) }).catch(() => undefined)
  }

  function inTurn(work: () => Promise<void>, said?: Evidence): Promise<void> {
    queue = queue.then(() => work().catch((error) => stop(error, said)))
    return queue
  }

  async function judge(heard: Heard, became: (event: RunEvent | undefined) => void): Promise<void> {
    const { event, rest } = interpret(pack, state, heard)
    became(await commit(event))
    if (rest) await judge({ ...rest, listenId: state.listenId }, () => undefined)
  }

  async function hear(heard: Heard): Promise<RunEvent | undefined> {
    let first: RunEvent | undefined
    const became = (event: RunEvent | undefined) => {
      first = event
    }
    await inTurn(() => judge(heard, became), evidenceOf(heard))
    return first
  }

  return {
    happen: (body) =>
      inTurn(async () => {
        const what = typeof body === 'function' ? body(state) : body
        for (const one of [what ?? []].flat()) await commit(one)
      }, evidenceIn(body)),
    hear,
    state: () => state,
    async settled() {
      let seen: Promise<void> | undefined
      while (seen !== queue) {
        seen = queue
        await seen
        await performing
      }
    },
  }
}
