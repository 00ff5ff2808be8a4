/** The sound check: what it makes of a speaker and a room, and what follows for the run. */

import { describe, expect, it } from 'vitest'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { createFiveNineGuard } from '../../src/app/run/fiveNine.ts'
import { createSoundCheck } from '../../src/app/sound/soundCheck.ts'
import { findingsOf, hearableOf, promptHeard, SOUND_PROMPTS } from '../../src/app/sound/soundPrompts.ts'
import { createAppStore } from '../../src/app/store.ts'
import type { Heard } from '../../src/kernel/hearing/heard.ts'
import { createFakeEar } from '../fakes/ear.ts'
import { createFakeVoice } from '../fakes/voice.ts'
import { idle, rig } from './rig.ts'

const RIGHT = [
  ...['five niner zero four', 'four point six up', 'stand by', 'nine five one three', 'one five nine'],
  ...['two five six nine zero', 'what is left', 'one zero zero nine'],
]
const QUIET = { level: -20, noise: -62, isClipped: false }
const heard = (text: string, more: Partial<Heard> = {}): Heard => ({
  ...{ listenId: 1, text, beganAt: 0, endedAt: 0, by: 'voice' },
  ...more,
})
const read = (texts: readonly string[], levels = QUIET) =>
  texts.map((text, at) => promptHeard(SOUND_PROMPTS[at] as (typeof SOUND_PROMPTS)[number], heard(text), levels))

describe('eight lines', () => {
  it('read as they stand are understood, and nothing needs to be set', () => {
    expect(findingsOf(read(RIGHT))).toEqual({
      ...{ understood: 8, read: 8, level: 'good', room: 'quiet' },
      settings: { pauses: 'usual', digitsFirst: false, fiveNine: false, listening: 'open' },
    })
  })

  it.each([
    ['five heard as nine', 'nine nine zero four', true],
    ['nine heard as five', 'five five zero four', true],
    ['both heard as the other', 'nine five zero four', true],
    ['another digit misheard as well', 'nine nine zero one', false],
    ['a digit that lacks', 'five zero four', false],
  ])('%s: five and nine are told apart from then on, or not', (_what, text, isFound) => {
    const lines = read([text, ...RIGHT.slice(1)])
    expect(lines[0]?.isUnderstood).toBe(false)
    expect(findingsOf(lines).settings.fiveNine).toBe(isFound)
  })

  it('of which several values are misheard leads to single digits', () => {
    const lines = read(['four', 'up', 'stand by', 'three', 'one five nine', ...RIGHT.slice(5)])
    expect(findingsOf(lines).settings.digitsFirst).toBe(true)
  })

  it('read with pauses inside lead to more patience', () => {
    const words = [
      { text: 'one', beginMs: 0, endMs: 300 },
      { text: 'five', beginMs: 750, endMs: 1000 },
      { text: 'nine', beginMs: 1100, endMs: 1400 },
    ]
    const line = SOUND_PROMPTS[4] as (typeof SOUND_PROMPTS)[number]
    expect(findingsOf([promptHeard(line, heard('one five nine', { words }), QUIET)]).settings.pauses).toBe('long')
  })

  it.each([
    ['a loud room', { level: -20, noise: -35, isClipped: false }, { room: 'loud', level: 'good' }, 'push'],
    ['a voice hardly above the room', { level: -44, noise: -55, isClipped: false }, { room: 'loud' }, 'push'],
    ['a faint voice', { level: -48, noise: -75, isClipped: false }, { level: 'faint', room: 'quiet' }, 'open'],
    ['a voice that is cut off', { level: -1, noise: -60, isClipped: true }, { level: 'loud' }, 'open'],
  ])('in %s', (_what, levels, found, listening) => {
    const findings = findingsOf(read(RIGHT, levels))
    expect(findings).toMatchObject(found)
    expect(findings.settings.listening).toBe(listening)
  })

  it('doubted by the ear are not understood, however well they read', () => {
    const line = SOUND_PROMPTS[0] as (typeof SOUND_PROMPTS)[number]
    expect(promptHeard(line, heard('five nine zero four', { doubt: 'unsure' }), QUIET).isUnderstood).toBe(false)
  })

  it('are listened to by their shape: no digit of them is in what the ear is told', () => {
    const told = SOUND_PROMPTS.map((line) => JSON.stringify(hearableOf(line))).join()
    const values = SOUND_PROMPTS.flatMap(({ figure }) => (figure ? [String(figure.value)] : []))
    expect(values.length).toBeGreaterThan(3)
    for (const secret of ['value', ...values]) expect(told).not.toContain(secret)
  })
})

describe('the check under way', () => {
  it('speaks, takes the lines in their order, one left out, and ends with what it found', async () => {
    const [clock, store] = [createVirtualClock(), createAppStore()]
    const [ear, voice] = [createFakeEar(clock.now), createFakeVoice()]
    const check = createSoundCheck({ store, ear, voice, clock })
    await check.begin()
    expect(voice.said.map(({ text }) => text)).toEqual(['Sound check. Read the lines on the screen.'])
    for (const [at, text] of RIGHT.entries()) {
      clock.advance(1_500)
      await idle()
      ear.emit({ type: 'level', level: -22, noise: -60, clipping: false })
      if (at === 2) check.skip()
      else ear.hear(text)
    }
    const { soundCheck } = store.getState()
    expect(soundCheck).toMatchObject({ stage: 'done', findings: { understood: 7, read: 7, level: 'good' } })
    expect(ear.listening()).toBeUndefined()
    await check.end()
    expect(store.getState()).toMatchObject({ soundCheck: undefined, ear: { state: 'off' } })
  })

  it('tells an ear that fails, and a voice that is not heard', async () => {
    const [clock, store] = [createVirtualClock(), createAppStore()]
    const ear = createFakeEar(clock.now)
    const check = createSoundCheck({ store, ear, voice: createFakeVoice({ outcome: 'failed' }), clock })
    await check.begin()
    expect(store.getState().soundCheck?.hasVoice).toBe(false)
    ear.emit({ type: 'failed', failure: { code: 'refused', message: 'Not allowed.' } })
    expect(store.getState().soundCheck).toMatchObject({ stage: 'failed', message: 'Not allowed.' })
  })
})

describe('for a speaker whose five sounds like nine', () => {
  const guard = () => createFiveNineGuard(() => true)

  it('the first saying is doubted and the same again is taken; fife and niner count at once', () => {
    const guarded = guard()
    expect(guarded(heard('one nine zero')).doubt).toBe('unsure')
    expect(guarded(heard('one nine zero')).doubt).toBeUndefined()
    expect(guarded(heard('one niner fife')).doubt).toBeUndefined()
    expect(guarded(heard('one two zero')).doubt).toBeUndefined()
    expect(guarded(heard('ninety', { by: 'typed' })).doubt).toBeUndefined()
  })

  it('two sayings that differ are both doubted', () => {
    const guarded = guard()
    expect(guarded(heard('one nine zero')).doubt).toBe('unsure')
    expect(guarded(heard('one five zero')).doubt).toBe('unsure')
  })

  it('a value in a run is asked for again, counted as no miss, and then taken', async () => {
    const flight = await rig()
    flight.store.setState(({ settings }) => ({ settings: { ...settings, fiveNine: true } }))
    await flight.hear('load figures list')
    for (const said of ['two four three six zero', 'four point three up', 'one two six', 'one three two'])
      await flight.hear(said)
    await flight.hear('one three nine')
    expect(flight.log.events.at(-1)).toMatchObject({ type: 'answered', judgement: { verdict: 'sayAgain' } })
    expect(flight.state().items['loadFigures.v2']).toMatchObject({ misses: 0 })
    await flight.hear('one three nine')
    expect(flight.state().items['loadFigures.v2']).toMatchObject({ status: 'done', misses: 0 })
  })
})

describe('numbers from a stranger to the ear', () => {
  it('are asked for in single digits at the first misunderstanding, then by key; no miss is counted', async () => {
    const flight = await rig({ settings: { digitsFirst: true } })
    await flight.hear('load figures list')
    await flight.hear('two four three six zero', { doubt: 'unsure', score: 0.8 })
    expect(flight.said()).toBe('Say again zero fuel weight, digit by digit.')
    flight.clock.advance(8_000)
    await flight.hear('two four three six zero', { doubt: 'unsure', score: 0.8 })
    flight.clock.advance(8_000)
    await flight.hear('two four three six zero', { doubt: 'unsure', score: 0.8 })
    expect(flight.said()).toBe('Cannot copy. Type it, or hold.')
    await idle()
    expect(flight.state().items['loadFigures.zeroFuelWeight']).toMatchObject({ misses: 0, sayAgains: 3 })
  })
})
