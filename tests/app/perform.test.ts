/** What a run orders is done in its order: the voice speaks, then the ear listens, then silence is counted. */

import { describe, expect, it } from 'vitest'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { createPerformer, type PerformParts } from '../../src/app/run/perform.ts'
import type { Effect, EventBody, TimerName } from '../../src/kernel/run/core/events.ts'
import { createFakeEar } from '../fakes/ear.ts'
import { createFakeVoice, type FakeVoiceOptions } from '../fakes/voice.ts'
import { idle } from './rig.ts'

const SHUT: Effect = { type: 'shut' }
const speak = (text: string): Effect => ({ type: 'speak', text, role: 'controller' })
const listen = (listenId: number): Effect => ({ type: 'listen', listenId, hearable: { shapes: [], yesNo: false } })
const timer = (name: TimerName, ms: number, event: EventBody = { type: 'earBack' }): Effect => ({
  ...{ type: 'startTimer', timer: name, ms, event },
})
const TURN = [SHUT, speak('Takeoff trim?'), listen(2), timer('prompt', 8_000)]

function seat(options: FakeVoiceOptions & { readonly endedAt?: number; readonly isHeadset?: boolean } = {}) {
  const clock = createVirtualClock(10_000)
  const ear = createFakeEar(clock.now)
  const voice = { ...createFakeVoice(options), endedAt: () => options.endedAt }
  const is = { hearing: false, headset: options.isHeadset ?? false, patient: false, kept: false }
  const happened: EventBody[] = []
  /** What is told of the voice; the empty text is its end. */
  const told: string[] = []
  const taken: Parameters<PerformParts['recordFromStation']>[0][] = []
  const performer = createPerformer({
    ...{ ear, voice, clock },
    happen: (body) => void happened.push(body),
    speaking: (text, role) => void told.push(`${role}: ${text}`),
    voiceFailed: (text, role) => void told.push(`${role} failed: ${text}`),
    recordFromStation: (values) => void taken.push(values),
    isHearing: () => is.hearing,
    isHeadset: () => is.headset,
    isPatient: () => is.patient,
    keepsSound: () => is.kept,
  })
  return { ...performer, clock, ear, voice, is, happened, told, taken }
}

describe('a turn', () => {
  it('speaks with the ear shut, then listens, and only then counts the silence', async () => {
    const { perform, ear, voice, clock, told } = seat({ holds: true })
    const done = perform(TURN)
    expect(voice.speaking()).toBe('Takeoff trim?')
    expect([ear.listening(), clock.pending()]).toEqual([undefined, 0])
    voice.end()
    await done
    expect([ear.listening()?.listenId, clock.pending()]).toEqual([2, 1])
    expect(told).toEqual(['otherseat: ', 'controller: Takeoff trim?', 'controller: '])
  })

  it('listens from when its sound had ended, or from now where the voice does not know', async () => {
    const knows = seat({ endedAt: 9_700 })
    await knows.perform(TURN)
    expect(knows.ear.listening()?.after).toBe(9_700)
    const unsure = seat()
    await unsure.perform(TURN)
    expect(unsure.ear.listening()?.after).toBe(10_000)
  })

  it('listens from the end of the tone where one comes after the words', async () => {
    const { perform, ear, voice, clock } = seat({ endedAt: 9_700 })
    voice.tone = async () => clock.skip(200)
    await perform([SHUT, speak('Takeoff trim?'), { type: 'tone', tone: 'soft' }, listen(2)])
    expect(ear.listening()?.after).toBe(10_200)
  })

  it('asks for the sound of what is said where that is kept', async () => {
    const { perform, ear, is } = seat()
    await perform(TURN)
    is.kept = true
    await perform(TURN)
    expect(ear.requests.map(({ keepsSound }) => keepsSound)).toEqual([undefined, true])
  })

  it('without words listens from now', async () => {
    const { perform, ear } = seat({ endedAt: 1 })
    await perform([SHUT, listen(2)])
    expect(ear.listening()).toMatchObject({ listenId: 2, after: 10_000 })
  })

  it('takes the place of the one before it, which says and does nothing more', async () => {
    const { perform, ear, voice, clock, told } = seat({ holds: true })
    const first = perform(TURN)
    const second = perform([SHUT, speak('V one?'), listen(3), timer('prompt', 8_000)])
    await first
    expect(voice.speaking()).toBe('V one?')
    expect([ear.requests.length, clock.pending()]).toEqual([0, 0])
    voice.end()
    await second
    expect(ear.requests.map(({ listenId }) => listenId)).toEqual([3])
    expect(told).toEqual([
      ...['otherseat: ', 'controller: Takeoff trim?'],
      ...['otherseat: ', 'controller: V one?', 'controller: '],
    ])
  })

  it('is not cut off by an order that begins none', async () => {
    const { perform, voice, ear } = seat({ holds: true })
    const done = perform(TURN)
    await perform([timer('watch', 1_000)])
    expect(voice.speaking()).toBe('Takeoff trim?')
    voice.end()
    await done
    expect(ear.listening()?.listenId).toBe(2)
  })

  it('of several texts says one after the other, and is cut off in whichever it is', async () => {
    const { perform, interrupt, voice, ear } = seat({ holds: true })
    const done = perform([SHUT, speak('Correct.'), speak('V one?'), listen(3)])
    voice.end()
    await idle()
    expect(voice.speaking()).toBe('V one?')
    interrupt()
    await done
    expect(voice.speaking()).toBeUndefined()
    expect(ear.listening()?.listenId).toBe(3)
  })

  it('hands over what a station gave', async () => {
    const { perform, taken } = seat()
    const given = { type: 'recordFromStation', turn: 'clearance.departure', values: { transponder: '2613' } } as const
    await perform([SHUT, given])
    expect(taken).toEqual([given])
  })

  it('hands it over also where its words are cut off by a later turn, and once', async () => {
    const { perform, taken, voice } = seat({ holds: true })
    const given = { type: 'recordFromStation', turn: 'clearance.departure', values: { transponder: '2613' } } as const
    const first = perform([SHUT, speak('Read back correct.'), given, listen(2)])
    const second = perform([SHUT, speak('Parking brake?')])
    await first
    expect(taken).toEqual([given])
    voice.end()
    await second
    expect(taken).toEqual([given])
  })
})

describe('what goes on by itself on the radio', () => {
  const radio = { type: 'radio', turn: 'clearance.departure', part: 'readBack' } as const
  const radioed = { ...radio, type: 'radioed' }

  it('comes once the words before it have been heard, and nobody is listened to in between', async () => {
    const { perform, voice, ear, happened } = seat({ holds: true })
    const done = perform([SHUT, speak('Cleared to Corrie.'), listen(2), radio])
    expect(happened).toEqual([])
    voice.end()
    await done
    expect([happened, ear.requests]).toEqual([[radioed], []])
  })

  it('is left to the later turn that cuts its words off', async () => {
    const { perform, voice, happened } = seat({ holds: true })
    const first = perform([SHUT, speak('Cleared to Corrie.'), radio])
    const second = perform([SHUT, speak('I say again.'), radio])
    await first
    expect(happened).toEqual([])
    voice.end()
    await second
    expect(happened).toEqual([radioed])
  })

  it('waits while the pilot speaks', async () => {
    const { perform, is, clock, happened } = seat({ isHeadset: true })
    is.hearing = true
    await perform([SHUT, speak('Cleared to Corrie.'), listen(2), radio])
    expect(happened).toEqual([])
    is.hearing = false
    clock.advance(1_000)
    expect(happened).toEqual([radioed])
  })
})

describe('a text that could not be said', () => {
  it('is told with its words and a tone, and the ear listens all the same', async () => {
    const { perform, voice, told, ear } = seat({ outcome: 'failed' })
    await perform(TURN)
    expect(told).toEqual([
      ...['otherseat: ', 'controller: Takeoff trim?', 'controller: '],
      'controller failed: Takeoff trim?',
    ])
    expect(voice.tones).toEqual(['attention'])
    expect(ear.listening()?.listenId).toBe(2)
  })

  it('is none where it was said, or was cut off', async () => {
    const spoken = seat()
    await spoken.perform(TURN)
    const cut = seat({ holds: true })
    const done = cut.perform(TURN)
    cut.interrupt()
    await done
    expect([...spoken.told, ...cut.told].filter((text) => text.includes('failed'))).toEqual([])
    expect([...spoken.voice.tones, ...cut.voice.tones]).toEqual([])
  })

  it('is of no interest any more where another turn has begun', async () => {
    const { perform, voice, told } = seat()
    const answers: (() => void)[] = []
    voice.speak = (text) =>
      new Promise((answer) => answers.push(() => answer(text === 'Takeoff trim?' ? 'failed' : 'spoken')))
    const first = perform(TURN)
    const second = perform([SHUT, speak('V one?'), listen(3)])
    for (const answer of answers) answer()
    await Promise.all([first, second])
    expect(told.filter((text) => text.includes('failed'))).toEqual([])
    expect(voice.tones).toEqual([])
  })
})

describe('through a headset', () => {
  it('the ear listens while the voice speaks, and is not asked twice', async () => {
    const { perform, ear, voice } = seat({ holds: true, isHeadset: true })
    const done = perform(TURN)
    expect(ear.listening()).toMatchObject({ listenId: 2, after: 10_000, isHeadset: true })
    voice.end()
    await done
    expect(ear.requests).toHaveLength(1)
  })

  it('nothing is listened to in a turn that does not ask for it', async () => {
    const { perform, ear } = seat({ isHeadset: true })
    await perform([SHUT, speak('Stopped.')])
    expect(ear.requests).toEqual([])
  })

  it('and from a loudspeaker the ear is told which it is, and who makes long pauses', async () => {
    const { perform, ear, is } = seat()
    await perform([SHUT, listen(2)])
    is.patient = true
    await perform([SHUT, listen(3)])
    const [usual, patient] = ear.requests.map(({ isHeadset, isPatient }) => [isHeadset, isPatient])
    expect([usual, patient]).toEqual([
      [undefined, undefined],
      [undefined, true],
    ])
  })
})

describe('a timer', () => {
  it('brings its event once, at its time', async () => {
    const { perform, clock, happened } = seat()
    await perform([timer('watch', 1_000, { type: 'resumed' })])
    clock.advance(999)
    expect(happened).toEqual([])
    clock.advance(1)
    clock.advance(60_000)
    expect(happened).toEqual([{ type: 'resumed' }])
  })

  it('takes the place of one of its name, and of no other', async () => {
    const { perform, clock, happened } = seat()
    await perform([timer('watch', 1_000, { type: 'resumed' }), timer('interlock', 1_500)])
    await perform([timer('watch', 2_000, { type: 'ended' })])
    clock.advance(60_000)
    expect(happened.map(({ type }) => type)).toEqual(['earBack', 'ended'])
  })

  it('never comes once all are stopped, and another may be started then', async () => {
    const { perform, clock, happened } = seat()
    await perform([timer('watch', 1_000, { type: 'resumed' }), timer('interlock', 1_000), { type: 'stopTimers' }])
    expect(clock.pending()).toBe(0)
    await perform([timer('watch', 2_000)])
    clock.advance(60_000)
    expect(happened.map(({ type }) => type)).toEqual(['earBack'])
  })

  it.each(['prompt', 'tone'] as const)('of silence (%s) waits until the pilot has finished speaking', async (name) => {
    const { perform, clock, happened, is } = seat()
    is.hearing = true
    await perform([timer(name, 8_000)])
    clock.advance(9_500)
    is.hearing = false
    expect(happened).toEqual([])
    clock.advance(499)
    expect(happened).toEqual([])
    clock.advance(1)
    expect(happened).toHaveLength(1)
  })

  it('of silence that waits is stopped like any other', async () => {
    const { perform, clock, happened, is } = seat()
    is.hearing = true
    await perform([timer('prompt', 8_000)])
    clock.advance(8_500)
    await perform([SHUT, { type: 'stopTimers' }])
    is.hearing = false
    clock.advance(60_000)
    expect(happened).toEqual([])
  })

  it.each(['watch', 'interlock'] as const)('of the aircraft (%s) does not wait for the pilot', async (name) => {
    const { perform, clock, happened, is } = seat()
    is.hearing = true
    await perform([timer(name, 1_000)])
    clock.advance(1_000)
    expect(happened).toHaveLength(1)
  })
})
