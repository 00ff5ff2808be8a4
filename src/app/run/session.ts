/**
 * One run under way, without a screen or a store: dispatch, revisions, script, timers, voice and ear joined. It begins
 * a run or goes on with one that was stored. The page, the rehearsal, the benchmark's seat and the tests use the same.
 */

import { createEmitter } from '../../emitter.ts'
import type { Inputs } from '../../kernel/figures/model.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Role } from '../../kernel/pack/roles.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import type { Replayed } from '../../kernel/run/core/readLog.ts'
import type { Clock, Ear, RunLog, Voice } from '../../ports.ts'
import type { Settings } from '../settings.ts'
import { type Beginning, startOf } from './beginning.ts'
import { createDispatch, type Dispatch } from './dispatch.ts'
import { followEar } from './followEar.ts'
import { createPerformer } from './perform.ts'
import { createRecord, type Storage } from './record.ts'
import type { FromSheet, Revision } from './revision.ts'
import { createRunFigures, type Entering } from './runFigures.ts'
import { createSpeech } from './speech.ts'
import type { RunSoFar } from './storedRun.ts'

export interface SessionParts {
  readonly clock: Clock
  readonly log: Pick<RunLog, 'append'>
  readonly ear: Ear
  readonly voice: Voice
  /** Of the person who speaks; asked whenever it matters, for they may change in the middle of a run. */
  readonly settings: () => Pick<Settings, 'isHeadset' | 'pauses' | 'fiveNine' | 'keepsSound'>
  /** The sound of what became this event is kept; without it none is. */
  readonly keepSound?: (event: RunEvent, samples: Int16Array) => void
}

export type SessionEvent =
  /** Stored, or known not to be: what came of it may be shown. `entering` where it is a revision. */
  | (Replayed & {
      readonly type: 'happened'
      readonly revisions: readonly Revision[]
      readonly entering: Entering | undefined
    })
  | {
      readonly type: 'speaking'
      readonly text: string
      readonly role: Role
      readonly failed: boolean
      readonly onRadio?: true
    }
  | { readonly type: 'storage'; readonly storage: Storage }

export interface RunSession extends Dispatch {
  readonly pack: Pack
  events(): readonly RunEvent[]
  revisions(): readonly Revision[]
  begin(beginning: Beginning): Promise<void>
  /** After a reload, a crash or a bug: what is open is asked once more. */
  resume(): Promise<void>
  /** A sheet, or a hand: these take the place of the figures in force, and of the situation. */
  enter(inputs: Inputs, from?: FromSheet): Promise<void>
  /** A sheet is laid on the table; the figures in force stay. */
  lay(sheet: Inputs): Promise<void>
  /** The pilot wants to speak now: what is being said is cut off, and the ear opens. */
  interrupt(): void
  /** A key of a typed answer was pressed. */
  typing(): void
  /** Stops listening and speaking; the run stays as it is in the log. */
  close(): void
  subscribe(listener: (event: SessionEvent) => void): () => void
}

export function createSession(parts: SessionParts, soFar: RunSoFar): RunSession {
  const { clock, log, ear, voice, settings, keepSound } = parts
  const { pack } = soFar
  const { emit, subscribe } = createEmitter<SessionEvent>()
  const speech = createSpeech(clock)
  let isClosed = false
  const keepsSound = () => keepSound !== undefined && settings().keepsSound

  const report = (storage: Storage) => {
    emit({ type: 'storage', storage })
    // The page is mostly behind a simulator: the tone sends the eyes to it.
    if (!storage.kept) void voice.tone('attention')
  }
  const record = createRecord(log, soFar.events, report, soFar.stored)
  const performer = createPerformer({
    ...{ ear, voice, clock },
    happen: (body) => void dispatch.happen(body),
    speaking(text, role, onRadio) {
      speech.said(text, voice.endedAt())
      emit({ type: 'speaking', text, role, failed: false, ...(onRadio && { onRadio }) })
    },
    voiceFailed(text, role) {
      emit({ type: 'speaking', text, role, failed: true })
      void dispatch.happen({ type: 'voiceFailed', text })
    },
    recordFromStation: (taken) => {
      if (!isClosed) figures.recordFromStation(taken)
    },
    isHearing: () => followed.isHearing(),
    isHeadset: () => settings().isHeadset,
    isPatient: () => settings().pauses === 'long',
    keepsSound,
  })
  const dispatch = createDispatch({
    ...{ pack, record, clock, state: soFar.state },
    changed(step) {
      const entering = figures.happened(step)
      emit({ type: 'happened', ...step, revisions: figures.revisions(), entering })
    },
    perform: async (effects) => {
      if (!isClosed) await performer.perform(effects)
    },
  })
  const figures = createRunFigures({ pack, clock, revisions: soFar.revisions, happen: dispatch.happen })

  function interrupt(): void {
    if (!speech.isOn()) return
    speech.cut()
    performer.interrupt()
  }
  const followed = followEar({
    ...{ ear, clock, speech, settings, interrupt, dispatch },
    sounded: (event, samples) => {
      if (keepsSound()) keepSound?.(event, samples)
    },
  })

  /** A departure that was dealt has final figures to come. */
  function awaitFinal(): void {
    const [first] = record.events()
    if (first?.type === 'runStarted') figures.awaitFinal(first.dealt, first.startedAt)
  }

  return {
    ...dispatch,
    ...{ pack, subscribe, interrupt },
    events: record.events,
    revisions: figures.revisions,
    typing: followed.typing,
    enter: figures.enter,
    lay: (sheet) => dispatch.happen({ type: 'sheetCame', sheet }),
    async begin(beginning) {
      const { sheets = [] } = beginning
      await dispatch.happen(() => [
        startOf(pack, beginning, clock.now()),
        ...sheets.map((sheet) => ({ type: 'sheetCame', sheet }) as const),
      ])
      awaitFinal()
      await figures.enter(beginning.inputs, beginning.from)
    },
    async resume() {
      awaitFinal()
      await dispatch.happen({ type: 'resumed' })
    },
    close() {
      isClosed = true
      figures.stop()
      followed.leave()
      void performer.perform([{ type: 'shut' }, { type: 'stopTimers' }])
    },
  }
}
