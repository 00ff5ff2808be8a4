/**
 * One run under way, without a screen or a store: dispatch, revisions, script, timers, voice and ear joined. It begins
 * a run or goes on with one that was stored. The page, the rehearsal, the benchmark's seat and the tests use the same.
 */

import { createEmitter } from '../../emitter.ts'
import type { Inputs } from '../../kernel/figures/model.ts'
import type { Heard } from '../../kernel/hearing/heard.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Role } from '../../kernel/pack/roles.ts'
import type { Happening, RunEvent } from '../../kernel/run/core/events.ts'
import type { Replayed } from '../../kernel/run/core/readLog.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import type { Clock, Ear, EarEvent, RunLog, Voice } from '../../ports.ts'
import type { Settings } from '../settings.ts'
import { type Beginning, dealtBy, startOf } from './beginning.ts'
import { createDispatch, type Dispatch } from './dispatch.ts'
import { createFiveNineGuard } from './fiveNine.ts'
import { createPerformer } from './perform.ts'
import { createRecord, type Storage } from './record.ts'
import {
  type Revised,
  type Revision,
  revisedBy,
  revisionsAfter,
  withoutGiven,
  withoutTaken,
  withStated,
  withTaken,
} from './revision.ts'
import { createSpeech } from './speech.ts'
import type { RunSoFar } from './storedRun.ts'

export interface SessionParts {
  readonly clock: Clock
  readonly log: Pick<RunLog, 'append'>
  readonly ear: Ear
  readonly voice: Voice
  /** Of the person who speaks; asked whenever it matters, for they may change in the middle of a run. */
  readonly settings: () => Pick<Settings, 'isHeadset' | 'pauses' | 'fiveNine'>
}

export type SessionEvent =
  /** Stored, or known not to be: what came of it may be shown. */
  | (Replayed & {
      readonly type: 'happened'
      readonly revisions: readonly Revision[]
      /** Where the event is a revision: how it came about, for whoever keeps a draft beside it. */
      readonly entering?: Entering
    })
  | { readonly type: 'speaking'; readonly text: string; readonly role: Role; readonly failed: boolean }
  | { readonly type: 'storage'; readonly storage: Storage }

export interface Entering {
  /** As handed in; what stations give may have been kept out of it. */
  readonly wanted: Inputs
  /** It came by voice, laid over the figures in force. */
  readonly lay?: Lay
}
type Lay = (inputs: Inputs) => Inputs

export interface RunSession extends Dispatch {
  readonly pack: Pack
  events(): readonly RunEvent[]
  revisions(): readonly Revision[]
  begin(beginning: Beginning): Promise<void>
  /** After a reload or a crash: what is open is asked once more. */
  resume(): Promise<void>
  /** A sheet, or a hand: these take the place of the figures in force, and of the situation. */
  enter(inputs: Inputs): Promise<void>
  /** The pilot wants to speak now: what is being said is cut off, and the ear opens. */
  interrupt(): void
  /** Stops listening and speaking; the run stays as it is in the log. */
  close(): void
  subscribe(listener: (event: SessionEvent) => void): () => void
}

/** Who coughs into a challenge need not lose the rest of it. */
const COUGH_MS = 300

export function createSession(parts: SessionParts, soFar: RunSoFar): RunSession {
  const { clock, log, ear, voice, settings } = parts
  const { pack } = soFar
  const { emit, subscribe } = createEmitter<SessionEvent>()
  const speech = createSpeech(clock)
  let { revisions } = soFar
  let entering: Entering | undefined
  let isHearing = false
  let isClosed = false
  let stopWaitingForFinal = () => {}

  const record = createRecord(log, soFar.events, (storage) => {
    emit({ type: 'storage', storage })
    // The page is mostly behind a simulator: the tone sends the eyes to it.
    if (!storage.kept) void voice.tone('attention')
  })
  const performer = createPerformer({
    ...{ ear, voice, clock },
    happen: (happening) => void dispatch.happen(happening),
    speaking(text, role) {
      speech.said(text, voice.endedAt())
      emit({ type: 'speaking', text, role, failed: false })
    },
    voiceFailed(text, role) {
      emit({ type: 'speaking', text, role, failed: true })
      void dispatch.happen({ type: 'voiceFailed', text })
    },
    takeDown: ({ turn, values }) => void layOver((inputs) => withTaken(inputs, values), { takenDown: turn }),
    isHearing: () => isHearing,
    isHeadset: () => settings().isHeadset,
    isPatient: () => settings().pauses === 'long',
  })
  const dispatch = createDispatch({
    ...{ pack, record, clock, state: soFar.state, changed },
    perform: async (effects) => {
      if (!isClosed) await performer.perform(effects)
    },
  })

  function changed(step: Replayed): void {
    const { event } = step
    revisions = revisionsAfter(pack, revisions, step)
    emit({ type: 'happened', ...step, revisions, ...(event.type === 'figuresRevised' && entering && { entering }) })
    if (event.type === 'stated') void layOver((inputs) => withStated(inputs, event), { crossChecked: event.figure })
  }

  /** Figures for whatever is in force when their turn comes; undefined where they are not wanted any more. */
  function revise(
    change: (run: RunState) => Inputs | undefined,
    from: Pick<Revised, 'crossChecked' | 'takenDown'> = {},
    lay?: Lay,
  ): Promise<void> {
    return dispatch.happen((run) => {
      const wanted = change(run)
      if (!wanted) return undefined
      entering = { wanted, ...(lay && { lay }) }
      const isFromStation = from.takenDown !== undefined
      const inputs = run.script && !isFromStation ? withoutGiven(pack, wanted, run.inputs) : wanted
      return [...situationChanges(run, inputs), revisedBy(pack, inputs, revisions.at(-1), from)]
    })
  }

  /** What came by voice changes the figures in force, in the situation of the run. */
  function layOver(lay: Lay, from: Pick<Revised, 'crossChecked' | 'takenDown'>): Promise<void> {
    return revise(({ inputs, situation }) => inputs && lay({ ...inputs, situation }), from, lay)
  }

  /** The final figures of a dealt departure come in at their time, wherever the run is then. */
  function awaitFinal(dealtAs: number | undefined, startedAt: number): void {
    const dealt = dealtAs === undefined ? undefined : dealtBy(pack, dealtAs)
    if (!dealt) return
    const due = startedAt + dealt.finalAfterMinutes * 60_000
    stopWaitingForFinal = clock.after(Math.max(0, due - clock.now()), () => {
      // Where the pilot leaves the stand in another way than was dealt, late figures do not change that.
      void revise((run) =>
        run.figureStatus === 'preliminary'
          ? withoutTaken({ ...dealt.final, situation: run.situation }, run)
          : undefined,
      )
    })
  }

  function interrupt(): void {
    if (!speech.isOn()) return
    speech.cut()
    performer.interrupt()
  }

  const guarded = createFiveNineGuard(() => settings().fiveNine)
  function asHeard(heard: Heard): Heard {
    if (heard.by !== 'voice') return heard
    return { ...guarded(heard), ...(speech.isEarly(heard.beganAt) && { early: true }) }
  }

  const leaveEar = ear.subscribe((event: EarEvent) => {
    switch (event.type) {
      case 'state':
        isHearing = event.state === 'hearing'
        break
      case 'speechBegan':
        // From a loudspeaker it would be its own voice that stops it.
        if (settings().isHeadset && speech.isOn()) clock.after(COUGH_MS, () => isHearing && interrupt())
        break
      case 'heard':
        void dispatch.hear(asHeard(event.heard))
        break
      case 'failed':
        void dispatch.happen({ type: 'earFailed', message: event.failure.message })
        break
      case 'back':
        void dispatch.happen({ type: 'earBack' })
        break
    }
  })

  return {
    ...dispatch,
    ...{ pack, subscribe, interrupt },
    events: record.events,
    revisions: () => revisions,
    enter: (inputs) => revise(() => inputs),
    async begin(beginning) {
      const startedAt = clock.now()
      await dispatch.happen(startOf(pack, beginning, startedAt))
      awaitFinal(beginning.dealt, startedAt)
      await revise(() => beginning.inputs)
    },
    async resume() {
      const [first] = soFar.events
      if (first?.type === 'runStarted') awaitFinal(first.dealt, first.startedAt)
      await dispatch.happen({ type: 'resumed' })
    },
    close() {
      isClosed = true
      stopWaitingForFinal()
      leaveEar()
      void performer.perform([{ type: 'shut' }, { type: 'stopTimers' }])
    },
  }
}

function situationChanges({ situation }: RunState, inputs: Inputs): Happening[] {
  return Object.entries(inputs.situation ?? {})
    .filter(([name, value]) => situation[name] !== value)
    .map(([name, value]) => ({ type: 'situationSet', name, value, evidence: { by: 'key', text: '' } }))
}
