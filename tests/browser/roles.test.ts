/** The voices of the roles as a browser plays them: told apart by ear, and by radio where that is wanted. */

import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Served } from '../../src/build/serve.ts'
import { ROLES } from '../../src/kernel/pack/roles.ts'
import { serveModules } from './modules.ts'
import { openPage, type TestPage } from './page.ts'

type Channels = typeof import('../../src/adapters/voice/radioChannel.ts')
type Flites = typeof import('../../src/adapters/voice/flite.ts')
type Recordings = typeof import('../../src/adapters/voice/recording.ts')
type Voices = typeof import('../../src/adapters/voice/chooseVoice.ts')

let served: Served
let opened: TestPage
beforeAll(async () => {
  served = await serveModules()
  opened = await openPage({ address: served.address })
})
afterAll(async () => {
  await opened.close()
  await served.close()
})

const DIGITS = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine']

/** The middle of all pitches (Hz) at which a role says the digits, by autocorrelation: recorded, or synthesised. */
const pitchOf = (role: (typeof ROLES)[number], how: 'recorded' | 'synthesised') =>
  opened.page.evaluate(
    async ([role, how, digits]) => {
      const { fetchRecording, fetchSynthesiser } = await window.bring<Recordings>('/adapters/voice/recording.ts')
      const { createFlite } = await window.bring<Flites>('/adapters/voice/flite.ts')
      const rate = 16_000

      async function recorded() {
        const { recording, bytes } = await fetchRecording(role)
        const buffer = await new OfflineAudioContext(1, 1, rate).decodeAudioData(bytes)
        const samples = buffer.getChannelData(0)
        const mark = samples.findIndex((sample) => Math.abs(sample) > 0.1)
        const at = (ms: number) => Math.round(mark + ((ms - recording.markMs) * rate) / 1000)
        return digits.map((word) => {
          const [beginMs, lengthMs] = recording.clips[word] ?? [0, 0]
          return samples.subarray(at(beginMs), at(beginMs + lengthMs))
        })
      }
      async function synthesised() {
        const flite = await createFlite(await fetchSynthesiser(role))
        return digits.map(flite.say)
      }

      const pitches: number[] = []
      for (const word of await (how === 'recorded' ? recorded() : synthesised())) {
        for (let from = 0; from + 800 < word.length; from += 400) {
          const frame = word.subarray(from, from + 800)
          const likeness = (lag: number) =>
            frame.subarray(0, 800 - lag).reduce((sum, sample, place) => sum + sample * (frame[place + lag] ?? 0), 0)
          const whole = likeness(0)
          if (Math.sqrt(whole / 800) < 0.05) continue
          const lags = Array.from({ length: rate / 60 - rate / 350 }, (_, step) => Math.round(rate / 350) + step)
          const best = lags.reduce((most, lag) => (likeness(lag) > likeness(most) ? lag : most))
          if (likeness(best) > whole / 2) pitches.push(rate / best)
        }
      }
      return pitches.toSorted((one, other) => one - other)[Math.floor(pitches.length / 2)] ?? 0
    },
    [role, how, DIGITS] as const,
  )

test('no two roles speak at nearly the same pitch: they are more than two semitones apart', async () => {
  const pitches = []
  for (const role of ROLES) pitches.push(await pitchOf(role, 'recorded'))
  const steps = pitches.toSorted((one, other) => one - other).map((hz) => 12 * Math.log2(hz))
  const apart = steps.slice(1).map((step, at) => step - (steps[at] ?? 0))
  expect(Math.min(...apart)).toBeGreaterThan(2)
})

test.each(ROLES)('%s is synthesised at the pitch at which it was recorded, within half a semitone', async (role) => {
  const [recorded, synthesised] = [await pitchOf(role, 'recorded'), await pitchOf(role, 'synthesised')]
  expect(Math.abs(12 * Math.log2(synthesised / recorded))).toBeLessThan(0.5)
})

test('the recording of a role is fetched when it first speaks', async () => {
  const fetched = await opened.page.evaluate(async () => {
    const { createVoice } = await window.bring<Voices>('/adapters/voice/chooseVoice.ts')
    performance.clearResourceTimings()
    const recordings = () =>
      performance
        .getEntriesByType('resource')
        .filter((entry) => (entry as PerformanceResourceTiming).initiatorType === 'fetch' && /mp3/.test(entry.name))
        .map(({ name }) => /(\w+)\.mp3/.exec(name)?.[1])
    const voice = createVoice({ settings: () => ({ voice: 'embedded', rate: 1.6, radioSound: true }) })
    await voice.wake()
    const outcomes = [await voice.speak('Confirm?', 'otherseat')]
    const first = recordings()
    outcomes.push(await voice.speak('Read back correct.', 'controller'))
    return { outcomes, first, later: recordings() }
  })
  expect(fetched).toEqual({
    outcomes: ['spoken', 'spoken'],
    first: ['otherseat'],
    later: ['otherseat', 'controller'],
  })
})

/** Loudness (dB) of a tone of each frequency behind the radio channel. */
const throughRadio = (frequencies: readonly number[]) =>
  opened.page.evaluate(async (frequencies) => {
    const { openChannel, KEY_MS } = await window.bring<Channels>('/adapters/voice/radioChannel.ts')
    const levels: number[] = []
    for (const frequency of frequencies) {
      const context = new OfflineAudioContext(1, 24_000, 16_000)
      const tone = new OscillatorNode(context, { frequency })
      tone.connect(openChannel(context, 1_000, 'light').input)
      tone.start(KEY_MS / 1000)
      const samples = (await context.startRendering()).getChannelData(0).subarray(6_000, 14_000)
      levels.push(10 * Math.log10(samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length))
    }
    return levels
  }, frequencies)

test('by radio a voice is left with the band of a voice channel, over a noise that does not cover it', async () => {
  const [low = 0, inside = 0, high = 0, noise = 0] = await throughRadio([100, 1_000, 7_000, 0])
  expect(inside - low).toBeGreaterThan(20)
  expect(inside - high).toBeGreaterThan(12)
  expect(inside - noise).toBeGreaterThan(25)
  expect(noise).toBeGreaterThan(-60)
})
