/** The embedded voice in a browser that has no voice of its own, heard through the microphone as an echo. */

import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import type { Served } from '../../../src/build/serve.ts'
import { loudestWhile } from '../listen.ts'
import { serveModules } from '../modules.ts'
import { openPage, type TestPage } from '../page.ts'
import { until } from '../until.ts'

type Voices = typeof import('../../../src/adapters/voice/chooseVoice.ts')
type Recordings = typeof import('../../../src/adapters/voice/recording.ts')

let served: Served
let opened: TestPage
beforeAll(async () => {
  served = await serveModules()
})
afterAll(() => served.close())
beforeEach(async () => {
  opened = await openPage({ address: served.address, echo: 1 })
})
afterEach(() => opened.close())

const THREE_SENTENCES = 'Say again, takeoff trim. Say again, takeoff trim. Say again, takeoff trim.'

/** Speaks in the page, and cuts it off after a while if asked. */
const speak = (text: string, cancelAfterMs?: number) =>
  opened.page.evaluate(
    async ([text, cancelAfterMs]) => {
      const { createVoice } = await window.bring<Voices>('/adapters/voice/chooseVoice.ts')
      const voice = createVoice({ settings: () => ({ voice: '', rate: 1, radioSound: false }) })
      await voice.wake()
      const began = performance.now()
      const utterance = new AbortController()
      const outcome = voice.speak(text, 'otherseat', utterance.signal)
      if (cancelAfterMs !== undefined) setTimeout(() => utterance.abort(), cancelAfterMs)
      return { outcome: await outcome, name: voice.name, lengthMs: performance.now() - began }
    },
    [text, cancelAfterMs] as const,
  )

/** Of which roles it was fetched. (A module that only names the file has more behind the name.) */
const synthesisers = () => opened.requests.flatMap((url) => /(\w+)\.wasm(?!\?import)/.exec(url)?.[1] ?? [])

describe('where the browser has no voice', () => {
  test('the embedded one speaks, and is heard', async () => {
    const level = await loudestWhile(opened.page, async () => {
      expect(await speak('I heard, five six up. Takeoff trim?')).toMatchObject({ outcome: 'spoken', name: 'embedded' })
    })
    expect(level).toBeGreaterThan(0.2)
    expect(opened.errors()).toEqual([])
    expect(opened.foreign()).toEqual([])
  })

  test('a text is spoken to its end: three sentences do not end before they can have been said', async () => {
    const { outcome, lengthMs } = await speak(THREE_SENTENCES)
    expect(outcome).toBe('spoken')
    expect(lengthMs).toBeGreaterThan(4_500)
  })

  test('a sentence with a word that is not recorded is synthesised, and heard; nothing is loaded for it before', async () => {
    expect((await speak('I heard, five six up.')).outcome).toBe('spoken')
    expect(synthesisers()).toEqual([])
    const level = await loudestWhile(opened.page, async () => {
      const spoken = await speak('I heard, five xylophones up. Canopy jettison handle, pinned and safely stowed?')
      expect(spoken).toMatchObject({ outcome: 'spoken', name: 'embedded' })
      expect(spoken.lengthMs).toBeGreaterThan(3_000)
    })
    expect(level).toBeGreaterThan(0.2)
    expect(synthesisers()).toEqual(['otherseat'])
    expect(opened.errors()).toEqual([])
  })

  test('it is loaded ahead where it will be needed, and only there', async () => {
    const loads = (texts: readonly string[]) =>
      opened.page.evaluate(async (texts) => {
        const { createVoice } = await window.bring<Voices>('/adapters/voice/chooseVoice.ts')
        await createVoice({ settings: () => ({ voice: '', rate: 1, radioSound: false }) }).wake(texts)
      }, texts)
    await loads(['takeoff trim'])
    expect(synthesisers()).toEqual([])
    await loads(['takeoff trim', 'canopy jettison handle'])
    await until(() => synthesisers().length > 0, 60_000)
    expect(synthesisers()).toEqual(['otherseat'])
  })

  test('a sentence with a word that has no sound is not spoken in part', async () => {
    const level = await loudestWhile(opened.page, async () => {
      expect(await speak('I heard, five 漢字 up.')).toMatchObject({ outcome: 'failed' })
    })
    expect(level).toBeLessThan(0.002)
  })

  test('a text can be cut off', async () => {
    expect((await speak(THREE_SENTENCES, 300)).outcome).toBe('cancelled')
  })

  test('tones sound', async () => {
    const level = await loudestWhile(opened.page, () =>
      opened.page.evaluate(async () => {
        const { createVoice } = await window.bring<Voices>('/adapters/voice/chooseVoice.ts')
        const voice = createVoice({ settings: () => ({ voice: '', rate: 1, radioSound: false }) })
        for (const name of ['tick', 'attention', 'soft'] as const) await voice.tone(name)
      }),
    )
    expect(level).toBeGreaterThan(0.1)
  })
})

test('as the browser decodes it, each clip of the recording is where the index says, with silence between', async () => {
  const wrong = await opened.page.evaluate(async () => {
    const { fetchRecording } = await window.bring<Recordings>('/adapters/voice/recording.ts')
    const { recording, bytes } = await fetchRecording('otherseat')
    const rate = 16_000
    const buffer = await new OfflineAudioContext(1, 1, rate).decodeAudioData(bytes)
    const samples = buffer.getChannelData(0)
    const shiftMs = (samples.findIndex((sample) => Math.abs(sample) > 0.1) / rate) * 1000 - recording.markMs
    const level = (fromMs: number, toMs: number) =>
      samples
        .subarray(((fromMs + shiftMs) * rate) / 1000, ((toMs + shiftMs) * rate) / 1000)
        .reduce((most, sample) => Math.max(most, Math.abs(sample)), 0)
    return Object.entries(recording.clips).flatMap(([text, [beginMs, lengthMs]]) => {
      const endMs = beginMs + lengthMs
      const isRight =
        level(beginMs, endMs) > 0.1 && level(beginMs - 60, beginMs - 20) < 0.02 && level(endMs + 20, endMs + 60) < 0.02
      return isRight ? [] : [text]
    })
  })
  expect(wrong).toEqual([])
})
