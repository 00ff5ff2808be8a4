/**
 * The default ear: microphone, two workers, on the device. It wires them and watches over them, and
 * decides nothing. The only file that starts the workers.
 */

import type { Vocabulary } from '../../../kernel/hearing/hearable.ts'
import type { Clock, Ear, EarEvent, EarFailure, EarGate, EarState, ListenOrder } from '../../../ports.ts'
import { type Microphone, openMicrophone } from '../audio/microphone.ts'
import { dictionaryFor } from '../recogniser/dictionaryFor.ts'
import { startWeigher, type WeigherThread } from '../rescorer/rescorerThread.ts'
import { onComeback } from './comeback.ts'
import type { FromWorker } from './messages.ts'
import { fetchModel, type Model } from './modelFiles.ts'
import { startWorkers, type Workers } from './passThreads.ts'
import type { KnownSpeaker } from './storedSpeaker.ts'

export interface DeviceEarOptions {
  /** Absolute address of the folder with the model, with a slash at its end. */
  readonly modelBase: string
  readonly clock: Clock
  /** The browser's name of the microphone asked for; empty for the system's. */
  readonly microphone?: () => string
  /** Knows the speaker from one opening to the next. */
  readonly speaker: KnownSpeaker
  /** What was heard is weighed by a second model, which is loaded behind the first. */
  readonly weighs?: () => boolean
  /** Deafness behind the app's own voice; at most 150. */
  readonly guardMs?: number
}

const GUARD_MS = 120
/** Levels come about ten times a second; so many looks in a row without one mean a dead ear. */
const WATCH_EVERY_MS = 1000
const SIGNS_MISSED = 5
/** A recogniser that said that it is at work gets so many: several seconds of speech on a slow machine. */
const SIGNS_MISSED_AT_WORK = 40
const TYPING = 'Typing and the buttons work meanwhile.'

export function createDeviceEar(options: DeviceEarOptions): Ear {
  const { modelBase, clock, speaker, guardMs = GUARD_MS } = options
  const listeners = new Set<(event: EarEvent) => void>()
  let model: Promise<Model> | undefined
  let microphone: Microphone | undefined
  let workers: Workers | undefined
  let weigher: Promise<WeigherThread> | undefined
  let vocabulary: Vocabulary | undefined
  let order: ListenOrder | undefined
  let gate: EarGate = 'open'
  let state: EarState = 'off'
  let restarts = 0
  let hasSign = false
  let isBusy = false
  let stopWatching = () => {}
  let stopWaiting = () => {}
  /** Counts openings: what an earlier one still had under way is dropped. */
  let opening = 0

  const emit = (event: EarEvent) => {
    if (event.type === 'state') state = event.state
    for (const listener of [...listeners]) listener(event)
  }
  const become = (next: EarState) => {
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
    if (state !== 'failed') return
    await start(opening)
    if (workers) emit({ type: 'back' })
  }

  async function release(): Promise<void> {
    opening++
    stopWatching()
    stopWaiting()
    workers?.end()
    workers = undefined
    const closing = microphone?.close()
    microphone = undefined
    await closing?.catch(() => {})
  }

  /** Loads what lacks; false where another opening, or the close, came in between. */
  async function start(turn: number): Promise<void> {
    become('loading')
    const [opened, loaded] = await Promise.all([
      microphone ? { microphone } : openMicrophone(clock, options.microphone?.() ?? '', (failure) => fail(failure)),
      loadModel(),
    ])
    if (turn !== opening) {
      if ('microphone' in opened && opened.microphone !== microphone) await opened.microphone.close()
      return
    }
    if ('failure' in opened) return fail(opened.failure)
    microphone = opened.microphone
    if (!loaded || !vocabulary) return fail(MODEL_FAILURE)
    const started = await startWorkers(loaded, { receive, broke, speaker }).catch(() => undefined)
    if (turn !== opening) return started?.end()
    if (!started) return fail(MODEL_FAILURE)
    workers = started
    const dictionary = await dictionaryFor(vocabulary, loaded.words, modelBase)
    if (turn !== opening) return
    started.both({ type: 'learn', vocabulary, dictionary })
    started.first({ type: 'frames', port: microphone.frames, clockOffsetMs: clock.now() - Date.now() }, [
      microphone.frames,
    ])
    become('shut')
    watch()
    started.first({ type: 'gate', gate })
    if (order) ear.listen(order)
    void joinWeigher(started)
  }

  /** Behind everything else: until it is there, and where it cannot be, the ear hears without it. */
  async function joinWeigher(started: Workers): Promise<void> {
    if (!options.weighs?.()) return emit({ type: 'weigher', state: 'none' })
    emit({ type: 'weigher', state: 'loading' })
    weigher ??= startWeigher(modelBase)
    const thread = await weigher.catch(() => undefined)
    if (!thread) weigher = undefined
    if (started !== workers) return
    const line = thread?.line()
    if (line) started.first({ type: 'weigher', port: line }, [line])
    emit({ type: 'weigher', state: line ? 'ready' : 'failed' })
  }

  function endWeigher(): void {
    void weigher?.then(
      (thread) => thread.end(),
      () => {},
    )
    weigher = undefined
  }

  function loadModel(): Promise<Model | undefined> {
    model ??= fetchModel(modelBase, (fraction) => emit({ type: 'loading', fraction }))
    return model.catch(() => {
      model = undefined
      return undefined
    })
  }

  function receive(message: FromWorker): void {
    if (message.type === 'known') {
      speaker.set(message.frontEnd, message.known)
      return
    }
    hasSign = true
    isBusy = message.type === 'busy'
    if (message.type === 'event') {
      if (message.event.type === 'heard') restarts = 0
      // It did not answer: the next workers get another one.
      if (message.event.type === 'weigher') endWeigher()
      emit(message.event)
    }
  }

  /** A worker died: once more from the start, the order in force with it; a second time the ear gives up. */
  async function broke(): Promise<void> {
    if (state === 'failed' || state === 'off') return
    if (restarts++ > 0) {
      return fail({ code: 'worker', message: `The recogniser stopped twice; reload the page. ${TYPING}` })
    }
    await release()
    await start(opening)
    if (workers) emit({ type: 'back' })
  }

  /** Silence must never look like listening: no sign of life from sound or worker is told. */
  function watch(): void {
    stopWatching()
    let missed = 0
    let lastLook = clock.now()
    const look = async () => {
      const isLate = clock.now() - lastLook > 2 * WATCH_EVERY_MS
      lastLook = clock.now()
      stopWatching = clock.after(WATCH_EVERY_MS, look)
      // A page that itself was held up says nothing about the others.
      const isSilent = !hasSign && !isLate
      const isStopped = microphone !== undefined && !microphone.isRunning()
      missed = isSilent ? missed + 1 : 0
      hasSign = false
      if (missed < (isBusy && !isStopped ? SIGNS_MISSED_AT_WORK : SIGNS_MISSED)) return
      missed = 0
      if (isStopped) {
        const message = `The browser holds its sound back; touch the page once. ${TYPING}`
        await fail({ code: 'audio', message })
      } else await broke()
    }
    stopWatching = clock.after(WATCH_EVERY_MS, look)
  }

  const ear: Ear = {
    async open(next) {
      vocabulary = next
      restarts = 0
      const wasDead = state === 'failed'
      if (workers && state !== 'failed') {
        const loaded = await loadModel()
        if (loaded)
          workers.both({ type: 'learn', vocabulary, dictionary: await dictionaryFor(next, loaded.words, modelBase) })
        return
      }
      stopWaiting()
      state = 'off'
      await start(++opening)
      if (wasDead && workers) emit({ type: 'back' })
    },
    listen(next) {
      order = next
      // By the clock, not from the moment at which a busy worker comes to it.
      workers?.first({ type: 'listen', order: next, opensAt: next.after + (next.isHeadset ? 0 : guardMs) })
    },
    shut() {
      order = undefined
      workers?.first({ type: 'shut' })
    },
    gate(next) {
      gate = next
      workers?.first({ type: 'gate', gate })
    },
    async close() {
      order = undefined
      await release()
      endWeigher()
      become('off')
    },
    subscribe(hear) {
      listeners.add(hear)
      return () => listeners.delete(hear)
    },
  }
  return ear
}

const MODEL_FAILURE: EarFailure = {
  code: 'model',
  message: `The recogniser could not be loaded; check the connection and reload the page. ${TYPING}`,
}
