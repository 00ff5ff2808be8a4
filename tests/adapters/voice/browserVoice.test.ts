import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { createBrowserVoice } from '../../../src/adapters/voice/browserVoice.ts'
import { createVirtualClock, type VirtualClock } from '../../../src/app/rehearsal/virtualClock.ts'

const voice = (name: string, lang: string, localService: boolean, isDefault = false) =>
  ({ name, lang, localService, default: isDefault }) as SpeechSynthesisVoice

class Utterance {
  readonly text: string
  onend?: () => void
  onerror?: () => void
  voice?: SpeechSynthesisVoice
  constructor(text: string) {
    this.text = text
  }
}

class Synthesis extends EventTarget {
  list: SpeechSynthesisVoice[] = [voice('Far', 'en-US', false), voice('Near', 'en-GB', true)]
  readonly spoken: Utterance[] = []
  cancels = 0
  getVoices = () => this.list
  speak(utterance: Utterance) {
    this.spoken.push(utterance)
  }
  cancel() {
    this.cancels += 1
  }
}

/** All promises that are due have been kept. */
const settled = () => new Promise((done) => setImmediate(done))

let clock: VirtualClock
let synthesis: Synthesis
const make = (settings = { voice: '', rate: 1 }) =>
  createBrowserVoice({ clock, settings: () => settings, synthesis: synthesis as unknown as SpeechSynthesis })

beforeEach(() => {
  clock = createVirtualClock()
  synthesis = new Synthesis()
  vi.stubGlobal('SpeechSynthesisUtterance', Utterance)
})
afterEach(() => vi.unstubAllGlobals())

describe('which voices', () => {
  test('only English voices of this machine are offered', () => {
    synthesis.list.push(voice('Fremd', 'de-DE', true), voice('Old', 'en_AU', true))
    expect(make().voices()).toEqual(['Near', 'Old'])
  })

  test('the voice asked for speaks, else the default, else the first', async () => {
    synthesis.list.push(voice('Asked', 'en-IE', true), voice('Usual', 'en-US', true, true))
    void make({ voice: 'Asked', rate: 1 }).speak('a', 'otherseat')
    void make({ voice: 'Far', rate: 1 }).speak('a', 'otherseat')
    void make().speak('a', 'otherseat')
    expect(synthesis.spoken.map((one) => one.voice?.name)).toEqual(['Asked', 'Usual', 'Usual'])
  })

  test('a voice that the browser tells late is waited for', async () => {
    const list = synthesis.list
    synthesis.list = []
    const usable = make().isUsable()
    synthesis.list = list
    synthesis.dispatchEvent(new Event('voiceschanged'))
    expect(await usable).toBe(true)
  })

  test('a browser that never tells a voice is not usable', async () => {
    synthesis.list = []
    const usable = make().isUsable()
    clock.advance(10_000)
    expect(await usable).toBe(false)
    expect(await make().speak('a', 'otherseat')).toBe('failed')
  })
})

describe('an utterance', () => {
  test('is spoken when it has ended', async () => {
    const outcome = make().speak('Takeoff trim?', 'otherseat')
    synthesis.spoken[0]?.onend?.()
    expect(await outcome).toBe('spoken')
    expect(clock.pending()).toBe(0)
  })

  test('fails on an error', async () => {
    const outcome = make().speak('Takeoff trim?', 'otherseat')
    synthesis.spoken[0]?.onerror?.()
    expect(await outcome).toBe('failed')
  })

  test('fails where it never ends, later for a longer text', async () => {
    const outcomes: string[] = []
    void make()
      .speak('Flaps?', 'otherseat')
      .then((outcome) => outcomes.push(outcome))
    void make()
      .speak('Flaps? '.repeat(20), 'otherseat')
      .then((outcome) => outcomes.push(outcome))
    clock.advance(5_000)
    await settled()
    expect(outcomes).toEqual(['failed'])
    clock.advance(60_000)
    await settled()
    expect(outcomes).toEqual(['failed', 'failed'])
  })

  test('that is cancelled is neither spoken nor failed', async () => {
    const utterance = new AbortController()
    const outcome = make().speak('Takeoff trim?', 'otherseat', utterance.signal)
    utterance.abort()
    synthesis.spoken[0]?.onerror?.()
    expect(await outcome).toBe('cancelled')
    expect(synthesis.cancels).toBe(1)
  })

  test('that was called off before it began is never begun', async () => {
    expect(await make().speak('Takeoff trim?', 'otherseat', AbortSignal.abort())).toBe('cancelled')
    expect(synthesis.spoken).toEqual([])
  })

  test('that has ended is not cut off any more', async () => {
    const utterance = new AbortController()
    const outcome = make().speak('Takeoff trim?', 'otherseat', utterance.signal)
    synthesis.spoken[0]?.onend?.()
    utterance.abort()
    expect(await outcome).toBe('spoken')
    expect(synthesis.cancels).toBe(0)
  })
})
