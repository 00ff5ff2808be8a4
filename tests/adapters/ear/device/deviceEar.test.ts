/** The life of the device's ear, with other makers in place of microphone, model and threads: opening, failing, coming back. */

import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Microphone, OpenedMicrophone } from '../../../../src/adapters/ear/audio/microphone.ts'
import { createChosenEar } from '../../../../src/adapters/ear/chooseEar.ts'
import { createDeviceEar, type DeviceEarMakers } from '../../../../src/adapters/ear/device/deviceEar.ts'
import type { Model } from '../../../../src/adapters/ear/device/modelFiles.ts'
import type { PassThreadParts } from '../../../../src/adapters/ear/device/passThreads.ts'
import { createVirtualClock } from '../../../../src/app/rehearsal/virtualClock.ts'
import type { Vocabulary } from '../../../../src/kernel/hearing/hearable.ts'
import type { EarEvent, EarFailure, ListenRequest } from '../../../../src/ports.ts'

const VOCABULARY = { phrases: ['brake set'] } as unknown as Vocabulary
const MODEL = { files: {}, denoiser: 'rnnoise.wasm', words: 'set S EH T\n' } as unknown as Model
const request = (number: number, more: Partial<ListenRequest> = {}): ListenRequest => ({
  ...{ listenId: number, hearable: { shapes: [], yesNo: false }, after: 1_000 },
  ...more,
})
const GONE: EarFailure = { code: 'lost', message: 'The microphone is gone' }
const settled = () => new Promise((done) => setTimeout(done, 0))

// Where a dead ear waits for what may bring it back.
let devices: EventTarget
beforeEach(() => {
  devices = new EventTarget()
  vi.stubGlobal('navigator', { mediaDevices: devices })
})
afterEach(() => void vi.unstubAllGlobals())

type Makers = { [Name in keyof DeviceEarMakers]?: (...args: never[]) => unknown }

function setUp(changes: Makers = {}, { secondModel = false } = {}) {
  const clock = createVirtualClock()
  const events: EarEvent[] = []
  const microphones: { closed: boolean; lost: (failure: EarFailure) => void }[] = []
  const threads: { calls: unknown[][]; parts: PassThreadParts; ended: boolean; fails: boolean }[] = []
  const fetchModel = vi.fn(async () => MODEL)
  const startRescorer = vi.fn(async () => ({ connect: () => 'a port', end: vi.fn() }))
  const make = {
    fetchModel,
    startRescorer,
    dictionaryFor: async () => 'set S EH T\n',
    async openMicrophone(
      _clock: unknown,
      _id: unknown,
      lost: (failure: EarFailure) => void,
    ): Promise<OpenedMicrophone> {
      const mine = { closed: false, lost }
      microphones.push(mine)
      const microphone: Microphone = {
        frames: new MessageChannel().port1,
        isRunning: () => true,
        resume: async () => {},
        async close() {
          mine.closed = true
        },
      }
      microphone.frames.close()
      return { microphone }
    },
    async startPasses(parts: PassThreadParts) {
      const mine = { calls: [] as unknown[][], parts, ended: false, fails: false }
      threads.push(mine)
      const call =
        (name: string) =>
        async (...args: unknown[]) => {
          if (mine.fails) throw new Error('out of memory')
          mine.calls.push([name, ...args])
        }
      return {
        ...{ learn: call('learn'), hearFrames: call('hearFrames'), connectRescorer: call('connectRescorer') },
        ...{ listen: call('listen'), shut: call('shut'), gate: call('gate') },
        end() {
          mine.ended = true
        },
      }
    },
    ...changes,
  }
  const ear = createChosenEar({
    ...{ clock, modelBase: 'model/', profiles: { get: () => undefined, set: () => {} }, fallback: 'device' },
    settings: () => ({ ear: 'device', microphone: '', secondModel, soundMayLeave: false }),
    ears: { device: { create: (parts) => createDeviceEar(parts, make as unknown as DeviceEarMakers) } },
  })
  ear.subscribe((event) => events.push(event))
  const states = () => events.flatMap((event) => (event.type === 'state' ? [event.state] : []))
  const named = (type: EarEvent['type']) => events.filter((event) => event.type === type)
  const calls = (name: string, of = threads.at(-1)) => of?.calls.filter(([called]) => called === name) ?? []
  const failure = () => events.flatMap((event) => (event.type === 'failed' ? [event.failure] : [])).at(-1)
  return { clock, ear, fetchModel, startRescorer, events, microphones, threads, states, named, calls, failure }
}

describe('opening', () => {
  it('loads, learns the vocabulary, hears frames, and obeys gate and request as they were given before', async () => {
    const { ear, threads, states } = setUp()
    ear.gate('ended')
    ear.listen(request(3))
    await ear.open(VOCABULARY)
    expect(states()).toEqual(['loading', 'shut'])
    const [{ calls } = { calls: [] }] = threads
    expect(calls.map(([name]) => name)).toEqual(['learn', 'hearFrames', 'gate', 'listen'])
    expect(calls[0]).toEqual(['learn', VOCABULARY, 'set S EH T\n'])
    expect(calls[2]).toEqual(['gate', 'ended'])
  })

  it('listens 120 ms after the voice has ended, at once with a headset', async () => {
    const { ear, calls } = setUp()
    await ear.open(VOCABULARY)
    ear.listen(request(1))
    ear.listen(request(2, { isHeadset: true }))
    expect(calls('listen').map(([, , opensAt]) => opensAt)).toEqual([1_120, 1_000])
  })

  it('of an open ear with another vocabulary only has it learned', async () => {
    const { ear, threads, microphones, calls, fetchModel } = setUp()
    await ear.open(VOCABULARY)
    const other = { phrases: ['doors closed'] } as unknown as Vocabulary
    await ear.open(other)
    expect([threads.length, microphones.length, fetchModel.mock.calls.length]).toEqual([1, 1, 1])
    expect(calls('learn').at(-1)?.[1]).toBe(other)
  })

  it('that is closed meanwhile leaves nothing open', async () => {
    let open = (_: OpenedMicrophone) => {}
    const close = vi.fn(async () => {})
    const { ear, threads, states } = setUp({
      openMicrophone: () =>
        new Promise<OpenedMicrophone>((resolve) => {
          open = resolve
        }),
    })
    const opening = ear.open(VOCABULARY)
    await ear.close()
    open({ microphone: { frames: undefined as never, isRunning: () => true, resume: async () => {}, close } })
    await opening
    expect(close).toHaveBeenCalledTimes(1)
    expect(threads).toEqual([])
    expect(states()).toEqual(['loading', 'off'])
  })

  it('that is closed while the threads load ends them', async () => {
    let ready = (_: unknown) => {}
    const { ear } = setUp({
      startPasses: () =>
        new Promise((resolve) => {
          ready = resolve
        }),
    })
    const opening = ear.open(VOCABULARY)
    await settled()
    await ear.close()
    const end = vi.fn()
    ready({ end })
    await opening
    expect(end).toHaveBeenCalledTimes(1)
  })
})

describe('a failure', () => {
  it.each<[string, Makers, EarFailure['code']]>([
    ['the model cannot be fetched', { fetchModel: () => Promise.reject(new Error('404')) }, 'model'],
    ['a thread cannot load', { startPasses: () => Promise.reject(new Error('no wasm')) }, 'model'],
    [
      'the microphone is refused',
      { openMicrophone: async () => ({ failure: { ...GONE, code: 'refused' } }) },
      'refused',
    ],
  ])('where %s is reported once, with what to do', async (_, changes, code) => {
    const { ear, failure, named, states } = setUp(changes)
    await ear.open(VOCABULARY)
    expect(failure()?.code).toBe(code)
    expect(named('failed')).toHaveLength(1)
    expect(states().at(-1)).toBe('failed')
  })

  it('of the model is not for good: it is fetched again', async () => {
    const fetchModel = vi.fn(async (): Promise<Model> => MODEL).mockRejectedValueOnce(new Error('offline'))
    const { ear, states, named } = setUp({ fetchModel })
    await ear.open(VOCABULARY)
    await ear.open(VOCABULARY)
    expect(states().at(-1)).toBe('shut')
    expect(named('back')).toHaveLength(1)
  })

  it('of the microphone ends when a device comes: the request in force is taken up again', async () => {
    const { ear, microphones, threads, named, calls, failure } = setUp()
    await ear.open(VOCABULARY)
    ear.listen(request(4))
    microphones[0]?.lost(GONE)
    await settled()
    expect(failure()).toEqual(GONE)
    expect([threads[0]?.ended, microphones[0]?.closed]).toEqual([true, true])
    devices.dispatchEvent(new Event('devicechange'))
    await settled()
    expect(named('back')).toHaveLength(1)
    expect(threads).toHaveLength(2)
    expect(calls('listen')).toMatchObject([['listen', { listenId: 4 }, 1_120]])
  })
})

describe('threads that break', () => {
  it('are started again once, with the request in force', async () => {
    const { ear, threads, named, calls } = setUp()
    await ear.open(VOCABULARY)
    ear.listen(request(5))
    threads[0]?.parts.broken()
    await settled()
    expect(threads.map(({ ended }) => ended)).toEqual([true, false])
    expect(named('back')).toHaveLength(1)
    expect(calls('listen')).toHaveLength(1)
  })

  it('twice in a row are given up', async () => {
    const { ear, threads, failure } = setUp()
    await ear.open(VOCABULARY)
    for (const _ of [1, 2]) {
      threads.at(-1)?.parts.broken()
      await settled()
    }
    expect(failure()?.code).toBe('worker')
    expect(threads).toHaveLength(2)
  })

  it('are started again as often as something was heard in between', async () => {
    const { ear, threads, failure } = setUp()
    await ear.open(VOCABULARY)
    for (const _ of [1, 2, 3]) {
      const heard = { listenId: 1, text: 'set', beganAt: 0, endedAt: 1, by: 'voice' } as const
      threads.at(-1)?.parts.event({ type: 'heard', heard })
      threads.at(-1)?.parts.broken()
      await settled()
    }
    expect(failure()).toBeUndefined()
    expect(threads).toHaveLength(4)
  })

  it('count as broken where a call to them fails', async () => {
    const { ear, threads } = setUp()
    await ear.open(VOCABULARY)
    const [first] = threads
    if (first) first.fails = true
    ear.listen(request(6))
    await settled()
    expect(threads).toHaveLength(2)
  })

  it('count as broken where no sign of life comes', async () => {
    const { ear, threads, clock } = setUp()
    await ear.open(VOCABULARY)
    for (let second = 0; second < 12; second++) clock.advance(1_000)
    await settled()
    expect(threads).toHaveLength(2)
  })
})

describe('the second model', () => {
  const states = (events: readonly EarEvent[]) =>
    events.flatMap((event) => (event.type === 'secondModel' ? [event.state] : []))

  it('joins after all else, and once for all', async () => {
    const { ear, events, threads, calls, startRescorer } = setUp({}, { secondModel: true })
    await ear.open(VOCABULARY)
    await settled()
    expect(states(events)).toEqual(['loading', 'ready'])
    expect(calls('connectRescorer')).toEqual([['connectRescorer', 'a port']])
    threads[0]?.parts.broken()
    await settled()
    expect(calls('connectRescorer')).toHaveLength(1)
    expect(startRescorer).toHaveBeenCalledTimes(1)
  })

  it('that is not wanted, or not to be had, is done without', async () => {
    const unwanted = setUp()
    await unwanted.ear.open(VOCABULARY)
    expect(states(unwanted.events)).toEqual(['none'])
    const missing = setUp({ startRescorer: () => Promise.reject(new Error('404')) }, { secondModel: true })
    await missing.ear.open(VOCABULARY)
    await settled()
    expect(states(missing.events)).toEqual(['loading', 'failed'])
    expect(missing.states().at(-1)).toBe('shut')
  })

  it('that does not answer is ended, and another one started with the next threads', async () => {
    const { ear, threads, startRescorer } = setUp({}, { secondModel: true })
    await ear.open(VOCABULARY)
    await settled()
    threads[0]?.parts.event({ type: 'secondModel', state: 'failed' })
    await settled()
    const ended = await startRescorer.mock.results[0]?.value
    expect(ended.end).toHaveBeenCalledTimes(1)
    threads[0]?.parts.broken()
    await settled()
    expect(startRescorer).toHaveBeenCalledTimes(2)
  })
})
