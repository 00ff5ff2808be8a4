/** The two threads of the ear as the page has them: each a real channel, with something else than a recogniser at its end. */

import { expose, proxy } from 'comlink'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Model } from '../../../../src/adapters/ear/device/modelFiles.ts'
import type {
  FirstPassCalls,
  FirstPassWorker,
  Page,
  SecondPassWorker,
} from '../../../../src/adapters/ear/device/passCalls.ts'
import { startPasses } from '../../../../src/adapters/ear/device/passThreads.ts'
import type { StoredProfile, StoredProfiles } from '../../../../src/adapters/ear/device/storedProfiles.ts'
import type { EarEvent } from '../../../../src/ports.ts'

const MODEL = { files: { mdef: 'mdef' }, denoiser: 'rnnoise.wasm', words: '' } as unknown as Model
const PROFILE: StoredProfile = { level: 0.1, mean: [1, 2, 3] }
const LEVEL: EarEvent = { type: 'level', level: -20, noise: -60, clipping: false }

/** Stands in for the browser's: what it runs is chosen by the name of its file. */
class FakeWorker extends EventTarget {
  static made: FakeWorker[] = []
  static running: Readonly<Record<string, object>> = {}
  readonly name: string
  readonly port: MessagePort
  readonly ends: MessagePort[]
  isEnded = false
  constructor(url: URL) {
    super()
    const { port1, port2 } = new MessageChannel()
    this.port = port1
    this.ends = [port1, port2]
    this.name = url.href.replace(/.*\/(\w+)\.worker.*/, '$1')
    port1.addEventListener('message', ({ data }) => this.dispatchEvent(new MessageEvent('message', { data })))
    port1.start()
    const runs = FakeWorker.running[this.name]
    if (runs) expose(runs, port2)
    FakeWorker.made.push(this)
  }
  postMessage(message: unknown, transfer: Transferable[] = []) {
    this.port.postMessage(message, transfer as never)
  }
  terminate() {
    this.isEnded = true
    for (const end of this.ends) end.close()
  }
}

let page: Page | undefined
let called: unknown[][]
let loaded: unknown[]

const first: FirstPassWorker = {
  async load(model, second, itsPage) {
    loaded.push({ first: model })
    page = itsPage
    second.close()
    const note =
      (name: string) =>
      (...args: unknown[]) =>
        void called.push([name, ...args])
    const calls: FirstPassCalls = {
      ...{ learn: note('learn'), hearFrames: note('hearFrames'), connectRescorer: note('connectRescorer') },
      ...{ listen: note('listen'), gate: note('gate') },
      shut: () => {
        throw new Error('out of memory')
      },
    }
    return proxy(calls)
  },
}
const second: SecondPassWorker = {
  async load(model, port) {
    loaded.push({ second: model })
    port.close()
  },
}

beforeEach(() => {
  FakeWorker.made = []
  FakeWorker.running = { firstPass: first, secondPass: second }
  called = []
  loaded = []
  vi.stubGlobal('Worker', FakeWorker)
})
afterEach(() => {
  vi.unstubAllGlobals()
  vi.useRealTimers()
  for (const worker of FakeWorker.made) worker.terminate()
})

function start(profiles: Partial<StoredProfiles> = {}) {
  const parts = { event: vi.fn(), busy: vi.fn(), broken: vi.fn() }
  const stored = { get: () => undefined, set: vi.fn(), ...profiles }
  return { ...parts, stored, starting: startPasses({ ...parts, model: MODEL, profiles: stored }) }
}

describe('the threads of the ear', () => {
  it('are loaded with the model, and each with what is known of the speaker by its front end', async () => {
    const { starting } = start({ get: (frontEnd) => (frontEnd === 'cleaned' ? PROFILE : undefined) })
    await starting
    const model = { files: { mdef: 'mdef' }, denoiser: 'rnnoise.wasm' }
    expect(loaded).toEqual(expect.arrayContaining([{ first: model }, { second: { ...model, profile: PROFILE } }]))
  })

  it('are called by the first one, whose events come back', async () => {
    const { starting, event, busy, stored } = start()
    const threads = await starting
    await threads.learn({ phrases: [] } as never, 'set S EH T\n')
    await threads.gate('ended')
    expect(called).toEqual([
      ['learn', { phrases: [] }, 'set S EH T\n'],
      ['gate', 'ended'],
    ])
    await Promise.all([page?.event(LEVEL), page?.busy(), page?.profile('plain', PROFILE)])
    expect(event).toHaveBeenCalledWith(LEVEL)
    expect(busy).toHaveBeenCalledTimes(1)
    expect(stored.set).toHaveBeenCalledWith('plain', PROFILE)
  })

  it('refuse a call that fails there', async () => {
    const threads = await start().starting
    await expect(threads.shut()).rejects.toThrow('out of memory')
  })

  it('say nothing more once they are ended', async () => {
    const { starting, event } = start()
    const threads = await starting
    const sent = page?.event(LEVEL)
    threads.end()
    await sent
    expect(event).not.toHaveBeenCalled()
    expect(FakeWorker.made.map(({ isEnded }) => isEnded)).toEqual([true, true])
  })

  it('are broken once, whichever says so and however often', async () => {
    const { starting, broken } = start()
    await starting
    for (const worker of FakeWorker.made) worker.dispatchEvent(new Event('error'))
    await page?.broken('out of memory')
    expect(broken).toHaveBeenCalledTimes(1)
  })
})

describe('a thread that does not load', () => {
  it('is not there, nor is the other one', async () => {
    FakeWorker.running = { firstPass: first, secondPass: { load: () => Promise.reject(new Error('no wasm')) } }
    const { starting, broken } = start()
    await expect(starting).rejects.toThrow('no wasm')
    expect(FakeWorker.made.map(({ isEnded }) => isEnded)).toEqual([true, true])
    expect(broken).not.toHaveBeenCalled()
  })

  it('may be one whose code throws', async () => {
    FakeWorker.running = { firstPass: first }
    const { starting } = start()
    FakeWorker.made[1]?.dispatchEvent(Object.assign(new Event('error'), { message: 'document is not defined' }))
    await expect(starting).rejects.toThrow('document is not defined')
  })

  it('or one that says nothing for half a minute', async () => {
    vi.useFakeTimers()
    FakeWorker.running = { firstPass: first }
    const { starting } = start()
    const refused = expect(starting).rejects.toThrow('no answer within 30000 ms')
    await vi.advanceTimersByTimeAsync(30_000)
    await refused
  })
})
