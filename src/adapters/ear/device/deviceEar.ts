/**
 * The default ear: microphone, two passes and the second model, on the device. It wires them and watches over them, and
 * decides nothing.
 */

import type { EarEvent, EarFailure, EarState } from '../../../ports.ts'
import { type Microphone, openMicrophone } from '../audio/microphone.ts'
import type { EarKind, EarParts, WayOfHearing } from '../ear.ts'
import { dictionaryFor } from '../recogniser/dictionaryFor.ts'
import { type RescorerThread, startRescorer } from '../rescorer/rescorerThread.ts'
import { onComeback } from './comeback.ts'
import { fetchModel, type Model } from './modelFiles.ts'
import { type PassThreads, startPasses } from './passThreads.ts'
import { createWatch } from './watch.ts'

/** What the ear is made of: files, microphone and threads. Tests put others in their place. */
export interface DeviceEarMakers {
  readonly fetchModel: typeof fetchModel
  readonly openMicrophone: typeof openMicrophone
  readonly dictionaryFor: typeof dictionaryFor
  readonly startPasses: typeof startPasses
  readonly startRescorer: typeof startRescorer
}

export const DEVICE_EAR: EarKind = {
  offer: async () => ({
    label: 'Microphone',
    about: 'recognised on this device',
    hasSecondModel: true,
    givesSound: true,
  }),
  create: (parts) => createDeviceEar(parts),
}

/** Deafness after the app's own voice; at most 150. */
const GUARD_MS = 120
const TYPING = 'Typing and the buttons work meanwhile.'

export function createDeviceEar(
  { modelBase, clock, profiles, settings, asked, emit: report }: EarParts,
  make: DeviceEarMakers = { fetchModel, openMicrophone, dictionaryFor, startPasses, startRescorer },
): WayOfHearing {
  let model: Promise<Model> | undefined
  let microphone: Microphone | undefined
  let passes: PassThreads | undefined
  let rescorer: Promise<RescorerThread> | undefined
  let state: EarState = 'off'
  let restarts = 0
  let stopWaiting = () => {}
  /** Aborted when the ear is closed or opened anew: what the opening still has under way is dropped. */
  let opening = new AbortController()

  const watch = createWatch(clock, () => microphone?.isRunning() ?? true, {
    soundStopped: () =>
      void fail({ code: 'audio', message: `The browser holds its sound back; touch the page once. ${TYPING}` }),
    threadsSilent: () => void restart(),
  })

  function emit(event: EarEvent): void {
    if (event.type === 'state') state = event.state
    report(event)
  }
  function become(next: EarState): void {
    if (next !== state) emit({ type: 'state', state: next })
  }

  async function fail(failure: EarFailure): Promise<void> {
    if (state === 'failed') return
    await release()
    become('failed')
    emit({ type: 'failed', failure })
    stopWaiting = onComeback(failure, () => void comeBack())
  }

  /** From a failure to listening; says so only where it is. */
  async function comeBack(): Promise<void> {
    if (state === 'failed') await startAgain()
  }

  async function startAgain(): Promise<void> {
    await start()
    if (passes) emit({ type: 'back' })
  }

  async function release(): Promise<void> {
    opening.abort()
    watch.stop()
    stopWaiting()
    passes?.end()
    passes = undefined
    const closing = microphone?.close()
    microphone = undefined
    await closing?.catch(() => {})
  }

  /** Loads what is missing; stops where another opening, or the close, comes in between. */
  async function start(): Promise<void> {
    opening.abort()
    opening = new AbortController()
    const { signal } = opening
    become('loading')
    const [opened, loaded] = await Promise.all([
      microphone ? { microphone } : make.openMicrophone(clock, settings().microphone, (failure) => fail(failure)),
      loadModel(),
    ])
    if (signal.aborted) {
      if ('microphone' in opened && opened.microphone !== microphone) await opened.microphone.close()
      return
    }
    if ('failure' in opened) return fail(opened.failure)
    microphone = opened.microphone
    if (!loaded || !asked().vocabulary) return fail(MODEL_FAILURE)
    const started = await make
      .startPasses({ model: loaded, profiles, event: heard, busy: watch.busy, broken: () => void restart() })
      .catch(() => undefined)
    if (signal.aborted) return started?.end()
    if (!started) return fail(MODEL_FAILURE)
    passes = started
    await learn(started, loaded)
    if (signal.aborted) return
    beginHearing(started, microphone)
    void joinRescorer(started)
  }

  async function learn(threads: PassThreads, { words }: Model): Promise<void> {
    const { vocabulary } = asked()
    if (!vocabulary) return
    const dictionary = await make.dictionaryFor(vocabulary, words, modelBase)
    if (threads === passes) called(threads.learn(vocabulary, dictionary))
  }

  function beginHearing(threads: PassThreads, { frames }: Microphone): void {
    const { gate, request } = asked()
    called(threads.hearFrames(frames, clock.now() - Date.now()))
    become('shut')
    watch.start()
    called(threads.gate(gate))
    if (request) ear.listen(request)
  }

  /** After all else: until it is there, and where it cannot be, the ear hears without it. */
  async function joinRescorer(started: PassThreads): Promise<void> {
    if (!settings().secondModel) return emit({ type: 'secondModel', state: 'none' })
    emit({ type: 'secondModel', state: 'loading' })
    rescorer ??= make.startRescorer(modelBase)
    const thread = await rescorer.catch(() => undefined)
    if (!thread) rescorer = undefined
    if (started !== passes) return
    const port = thread?.connect()
    if (port) called(started.connectRescorer(port))
    emit({ type: 'secondModel', state: port ? 'ready' : 'failed' })
  }

  function endRescorer(): void {
    void rescorer?.then(
      (thread) => thread.end(),
      () => {},
    )
    rescorer = undefined
  }

  function loadModel(): Promise<Model | undefined> {
    model ??= make.fetchModel(modelBase, (fraction) => emit({ type: 'loading', fraction }))
    return model.catch(() => {
      model = undefined
      return undefined
    })
  }

  function heard(event: EarEvent): void {
    watch.alive()
    if (event.type === 'heard') restarts = 0
    // It did not answer: the next passes get another one.
    if (event.type === 'secondModel') endRescorer()
    emit(event)
  }

  /** A call that fails is a thread that is broken. */
  function called(call: Promise<void>): void {
    const threads = passes
    call.catch(() => {
      if (threads === passes) void restart()
    })
  }

  /** A thread died: once more from the start, with what is asked; the second time in a row the ear gives up. */
  async function restart(): Promise<void> {
    if (state === 'failed' || state === 'off') return
    if (restarts++ > 0) {
      return fail({ code: 'worker', message: `The recogniser stopped twice; reload the page. ${TYPING}` })
    }
    await release()
    await startAgain()
  }

  const ear: WayOfHearing = {
    async open() {
      restarts = 0
      const wasDead = state === 'failed'
      if (passes && !wasDead) {
        const threads = passes
        const loaded = await loadModel()
        if (loaded) await learn(threads, loaded)
        return
      }
      stopWaiting()
      state = 'off'
      if (wasDead) await startAgain()
      else await start()
    },
    listen(request) {
      // By the clock, not from the moment at which a busy thread comes to it.
      if (passes) called(passes.listen(request, request.after + (request.isHeadset ? 0 : GUARD_MS)))
    },
    shut() {
      if (passes) called(passes.shut())
    },
    gate(gate) {
      if (passes) called(passes.gate(gate))
    },
    async close() {
      await release()
      endRescorer()
      become('off')
    },
  }
  return ear
}

const MODEL_FAILURE: EarFailure = {
  code: 'model',
  message: `The recogniser could not be loaded; check the connection and reload the page. ${TYPING}`,
}
