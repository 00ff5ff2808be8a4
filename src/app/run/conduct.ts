/**
 * A run under way: the dispatch, the performer and the ear's reports joined to the store. One exists
 * at a time; it begins with a new run or goes on with a stored one.
 */

import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Effect, Happening, RunEvent } from '../../kernel/run/core/events.ts'
import { emptyRun, fold } from '../../kernel/run/core/step.ts'
import type { Clock, Ear, EarEvent, RunLog, Voice } from '../../ports.ts'
import type { Store } from '../store.ts'
import { createDispatch, type Dispatch } from './dispatch.ts'
import { createFiveNineGuard } from './fiveNine.ts'
import { createPerform } from './perform.ts'
import type { Stated } from './revision.ts'
import { createSpeech } from './speech.ts'

export interface ConductParts {
  readonly store: Store
  readonly clock: Clock
  readonly log: RunLog
  readonly ear: Ear
  readonly voice: Voice
}

export interface Told {
  /** A value was read aloud: the revision that takes it in is the caller's. */
  stated(stated: Stated): void
  /** A station gave values: likewise. */
  takenDown(taken: Extract<Effect, { type: 'takeDown' }>): void
  /** By voice, key or click: the figures under way must not set it back. */
  situated(name: string, value: string): void
}

export interface Conduct {
  readonly dispatch: Dispatch
  /** The pilot wants to speak now: what is being said is cut off, and the ear opens. */
  cut(): void
  /** Stops listening and speaking; the run stays as it is in the log. */
  close(): void
}

export function conduct(
  parts: ConductParts,
  pack: Pack,
  runId: string,
  events: readonly RunEvent[],
  told: Told,
): Conduct {
  const { store, clock, log, ear, voice } = parts
  const speech = createSpeech(clock)
  const cut = () => {
    if (!speech.isOn()) return
    speech.cut()
    voice.cancel()
  }
  const perform = createPerform({
    ear,
    voice,
    clock,
    happen: (happening: Happening) => void dispatch.happen(happening),
    speaking: (text, role) => {
      speech.said(text, voice.endedAt())
      store.setState({ voice: { speaking: text, role, failed: false } })
    },
    takeDown: told.takenDown,
    voiceFailed: (text, role) => {
      store.setState({ voice: { speaking: text, role, failed: true } })
      void dispatch.happen({ type: 'voiceFailed', text })
    },
    isHearing: () => store.getState().ear.state === 'hearing',
    isHeadset: () => store.getState().settings.isHeadset,
    isPatient: () => store.getState().settings.pauses === 'long',
  })
  const state = events.length > 0 ? fold(pack, runId, events) : emptyRun(runId)
  const dispatch = createDispatch({
    pack,
    log,
    clock,
    state,
    events,
    perform,
    changed: (run, event) => {
      store.setState((before) => ({ run, ear: { ...before.ear, soFar: '' } }))
      if (event.type === 'stated') told.stated(event)
      if (event.type === 'situationSet') told.situated(event.name, event.value)
    },
    logLost: (message) => store.setState({ storage: { kept: false, message } }),
  })
  const guarded = createFiveNineGuard(() => store.getState().settings.fiveNine)
  const unsubscribe = ear.subscribe((event) => {
    if (event.type === 'heard' && event.heard.by === 'voice') {
      const early = speech.isEarly(event.heard.beganAt) && { early: true }
      return reported(store, dispatch, { type: 'heard', heard: { ...guarded(event.heard), ...early } })
    }
    // From a loudspeaker it would be its own voice that stops it.
    const { isHeadset } = store.getState().settings
    if (event.type === 'speechBegan' && isHeadset && speech.isOn()) {
      clock.after(COUGH_MS, () => isSpeaking(store) && cut())
    }
    reported(store, dispatch, event)
  })
  store.setState({ run: state })
  return {
    dispatch,
    cut,
    close() {
      unsubscribe()
      perform([{ type: 'shut' }, { type: 'stopTimers' }])
    },
  }
}

/** Who coughs into a challenge need not lose the rest of it. */
const COUGH_MS = 300
const isSpeaking = (store: Store) => store.getState().ear.state === 'hearing'

function reported(store: Store, dispatch: Dispatch, event: EarEvent): void {
  const show = (change: Partial<ReturnType<Store['getState']>['ear']>) =>
    store.setState(({ ear }) => ({ ear: { ...ear, ...change } }))
  switch (event.type) {
    case 'state':
      show({ state: event.state, ...(event.state !== 'failed' && { failure: undefined }) })
      break
    case 'loading':
      show({ loading: event.fraction })
      break
    case 'secondModel':
      show({ secondModel: event.state })
      break
    case 'level':
      show({ level: event.level, noise: event.noise, clipping: event.clipping })
      break
    case 'speechBegan':
      show({ soFar: '' })
      break
    case 'soFar':
      show({ soFar: event.text })
      break
    case 'heard':
      void dispatch.hear(event.heard)
      break
    case 'failed':
      show({ failure: event.failure, ...(event.failure.code === 'service' && { note: event.failure.message }) })
      void dispatch.happen({ type: 'earFailed', message: event.failure.message })
      break
    case 'back':
      void dispatch.happen({ type: 'earBack' })
      break
  }
}
