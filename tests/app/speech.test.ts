/** Whether the voice speaks, which answers were early, and a five that may be a nine. */

import { describe, expect, it } from 'vitest'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { createFiveNineGuard } from '../../src/app/run/fiveNine.ts'
import { createSpeech } from '../../src/app/run/speech.ts'
import type { Heard } from '../../src/kernel/hearing/heard.ts'

describe('an answer', () => {
  const clock = createVirtualClock(10_000)

  it('is not early before anything was said', () => {
    const speech = createSpeech(clock)
    expect(speech.isOn()).toBe(false)
    expect(speech.isEarly(0)).toBe(false)
  })

  it('is early while the voice speaks, and where it began before its end', () => {
    const speech = createSpeech(clock)
    speech.said('Takeoff trim?')
    expect(speech.isOn()).toBe(true)
    expect(speech.isEarly(99_000)).toBe(true)
    speech.said('', 12_000)
    expect(speech.isOn()).toBe(false)
    expect(speech.isEarly(11_999)).toBe(true)
    expect(speech.isEarly(12_000)).toBe(false)
  })

  it('goes by the clock where the voice does not know when its sound ended', () => {
    const speech = createSpeech(clock)
    speech.said('Takeoff trim?')
    speech.said('')
    expect(speech.isEarly(9_999)).toBe(true)
    expect(speech.isEarly(10_000)).toBe(false)
  })

  it('is not made early by an end without a beginning', () => {
    const speech = createSpeech(clock)
    speech.said('', 50_000)
    expect(speech.isEarly(20_000)).toBe(false)
  })

  it('is early after the pilot has cut the voice off, until it speaks again', () => {
    const speech = createSpeech(clock)
    speech.said('Takeoff trim?')
    speech.cut()
    speech.said('', 12_000)
    expect(speech.isEarly(99_000)).toBe(true)
    speech.said('Say again.')
    speech.said('', 20_000)
    expect(speech.isEarly(99_000)).toBe(false)
  })
})

describe('the end of what was said', () => {
  it('is known once it is over, and not where the pilot cut it off', () => {
    const speech = createSpeech(createVirtualClock(10_000))
    expect(speech.endedAt()).toBeUndefined()
    speech.said('Takeoff trim?')
    expect(speech.endedAt()).toBeUndefined()
    speech.said('', 12_000)
    expect(speech.endedAt()).toBe(12_000)
    speech.said('Say again.')
    speech.cut()
    speech.said('', 13_000)
    expect(speech.endedAt()).toBeUndefined()
  })
})

describe('a five that may be a nine', () => {
  const heard = (text: string, more: Partial<Heard> = {}): Heard => ({
    ...{ listenId: 1, text, by: 'voice', beganAt: 0, endedAt: 1 },
    ...more,
  })
  const guard = () => createFiveNineGuard(() => true)

  it('is in doubt, in either word, until it is said a second time', () => {
    const guarded = guard()
    expect(guarded(heard('two five')).doubt).toBe('unsure')
    expect(guarded(heard('two nine')).doubt).toBe('unsure')
    expect(guarded(heard('two nine')).doubt).toBeUndefined()
  })

  it('is none where it was typed, where another doubt stands, or in other words', () => {
    expect(guard()(heard('two five', { by: 'typed' })).doubt).toBeUndefined()
    expect(guard()(heard('two five', { doubt: 'faint' })).doubt).toBe('faint')
    expect(guard()(heard('two niner fife')).doubt).toBeUndefined()
    expect(guard()(heard('fifteen')).doubt).toBeUndefined()
  })

  it('is in doubt again where something else was said in between', () => {
    const guarded = guard()
    expect(guarded(heard('two five')).doubt).toBe('unsure')
    expect(guarded(heard('say again')).doubt).toBeUndefined()
    expect(guarded(heard('two five')).doubt).toBe('unsure')
    expect(guarded(heard('two five'))).toEqual(heard('two five'))
  })

  it('is in doubt from the moment at which the speaker’s setting says so', () => {
    const setting = { isOn: false }
    const guarded = createFiveNineGuard(() => setting.isOn)
    expect(guarded(heard('two five')).doubt).toBeUndefined()
    setting.isOn = true
    expect(guarded(heard('Nine zero')).doubt).toBe('unsure')
  })

  it('is none for a speaker whose five and nine are apart', () => {
    expect(createFiveNineGuard(() => false)(heard('two five')).doubt).toBeUndefined()
  })
})
