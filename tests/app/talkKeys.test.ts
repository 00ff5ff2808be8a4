/** Keys of the pilot's own in a run: what opens and shuts the ear, and what is logged of it. */

import { describe, expect, it } from 'vitest'
import { createTalkKeys } from '../../src/app/run/talkKeys.ts'
import type { Settings } from '../../src/app/settings.ts'
import { keyPress } from '../../src/kernel/interpret/keyPress.ts'
import type { SwitchName } from '../../src/ports.ts'
import type { FakeVoiceOptions } from '../fakes/voice.ts'
import { rig } from './rig.ts'

async function handsOn(settings: Partial<Settings> = {}, options: FakeVoiceOptions = {}) {
  const flight = await rig(options)
  const { store, ear, run, pack, clock, settled } = flight
  store.setState((before) => ({ settings: { ...before.settings, ...settings } }))
  const refused: string[] = []
  const talk = createTalkKeys({
    store,
    ear,
    freezeStage: () => undefined,
    press: (press) => void run.happen((state) => keyPress(pack, state, press, clock.now())),
    interrupt: run.interrupt,
    refuse: () => refused.push('refused'),
  })
  talk.settle()
  const hold = async (name: SwitchName, isDown: boolean) => {
    talk.switched({ name, isDown })
    await settled()
  }
  const media = async (isDown = true) => {
    talk.switched({ name: 'talk', isDown, isOnce: true })
    await settled()
  }
  const gate = () => store.getState().ear.gate
  return { ...flight, talk, hold, media, gate, refused }
}

describe('push to talk', () => {
  it('keeps the ear shut until the key is down, and ends the answer where it is let go', async () => {
    const { hold, gate, ear } = await handsOn({ listening: 'push' })
    expect(gate()).toBe('talk')
    await hold('talk', true)
    expect(gate()).toBe('open')
    await hold('talk', false)
    expect(gate()).toBe('talk')
    expect(ear.gates).toEqual(['ended', 'open', 'ended'])
  })

  it('by a media key, which has no release, opens the ear for one answer', async () => {
    const { media, gate, hear } = await handsOn({ listening: 'push' })
    await media()
    expect(gate()).toBe('open')
    await hear('load figures list')
    expect(gate()).toBe('talk')
    await media()
    await media()
    expect(gate()).toBe('talk')
  })

  it('by a media key lasts until something is said aloud: typing does not end it, nor a noise', async () => {
    const { media, gate, hear, ear } = await handsOn({ listening: 'push' })
    await media()
    await media(false)
    ear.emit({ type: 'level', level: -20, noise: -60, clipping: false })
    await hear('say again', { by: 'typed' })
    expect(gate()).toBe('open')
    await hear('load figures list')
    expect(gate()).toBe('talk')
  })

  it('by a media key that is pressed again before anything was said is taken back, and moves nothing', async () => {
    const { media, gate, hear, state } = await handsOn({ listening: 'push' })
    await media()
    await hear('stand by', { by: 'typed' })
    await media()
    expect([gate(), state().standingBy]).toEqual(['talk', true])
    await media()
    expect([gate(), state().standingBy]).toEqual(['open', false])
  })

  it('that is chosen later begins shut, whatever a media key did before', async () => {
    const { media, gate, store, talk } = await handsOn()
    await media()
    store.setState(({ settings }) => ({ settings: { ...settings, listening: 'push' } }))
    talk.settle()
    expect(gate()).toBe('talk')
  })

  it('is the pilot’s choice: with an open microphone no key shuts the ear', async () => {
    const { hold, gate, ear } = await handsOn()
    await hold('talk', true)
    await hold('talk', false)
    expect(gate()).toBe('open')
    expect(ear.gates).toEqual([])
  })
})

describe('the radio key', () => {
  it.each(['open', 'push'] as const)('shuts the ear while it is held (%s microphone)', async (listening) => {
    const { hold, gate, ear } = await handsOn({ listening })
    const before = gate()
    await hold('talk', true)
    await hold('radio', true)
    expect(gate()).toBe('radio')
    expect(ear.gates.at(-1)).toBe('shut')
    await hold('talk', false)
    expect(gate()).toBe('radio')
    await hold('radio', false)
    expect(gate()).toBe(before)
  })
})

describe('in an exchange with a controller whom Otherseat plays', () => {
  it.each(['open', 'push'] as const)('the radio key opens the ear (%s microphone)', async (listening) => {
    const { store, talk, hold, gate } = await handsOn({ listening })
    store.setState(({ run }) => ({ run: run && { ...run, floor: { at: 'exchange', phase: 0, activity: 0 } } }))
    talk.settle()
    await hold('radio', true)
    expect(gate()).toBe('open')
    await hold('radio', false)
    expect(gate()).toBe(listening === 'push' ? 'talk' : 'open')
  })

  it('a radio key that is held already opens the ear where the exchange begins, and shuts it where it ends', async () => {
    const { store, hold, gate, state } = await handsOn()
    await hold('radio', true)
    expect(gate()).toBe('radio')
    store.setState(({ run }) => ({ run: run && { ...run, floor: { at: 'exchange', phase: 0, activity: 0 } } }))
    expect(gate()).toBe('open')
    store.setState({ run: state() })
    expect(gate()).toBe('radio')
  })
})

describe('before a run', () => {
  it('the keys move the ear’s gate as in one, and there is nothing to confirm', async () => {
    const { store, hold, gate, refused } = await handsOn({ listening: 'push' })
    store.setState({ run: undefined })
    await hold('talk', true)
    expect(gate()).toBe('open')
    await hold('talk', false)
    await hold('radio', true)
    expect(gate()).toBe('radio')
    await hold('confirm', true)
    expect(refused).toHaveLength(1)
  })
})

describe('the talk key', () => {
  it('ends a stand by', async () => {
    const { hold, hear, state, log } = await handsOn()
    await hear('stand by')
    expect(state().standingBy).toBe(true)
    await hold('talk', true)
    expect(state().standingBy).toBe(false)
    expect(log.events.at(-1)).toMatchObject({ type: 'commanded', command: 'continue', evidence: { by: 'key' } })
  })

  it('ends none where it is let go', async () => {
    const { hold, hear, state } = await handsOn()
    await hold('talk', true)
    await hear('stand by', { by: 'typed' })
    await hold('talk', false)
    expect(state().standingBy).toBe(true)
  })

  it('may be a media key: with an open microphone it ends a stand by, and cuts the voice off', async () => {
    const { media, hear, state } = await handsOn()
    await hear('stand by')
    await media()
    expect(state().standingBy).toBe(false)
    const talks = await handsOn({}, { holds: true })
    expect(talks.voice.speaking()).toContain('Figures flow')
    await talks.media(false)
    expect(talks.voice.speaking()).toContain('Figures flow')
    await talks.media()
    expect(talks.voice.speaking()).toBeUndefined()
  })

  it('cuts the voice off and opens the ear; the answer is logged as early', async () => {
    const flight = await handsOn({}, { holds: true })
    const { hold, voice, ear, hear, log, settled } = flight
    expect(voice.speaking()).toContain('Figures flow')
    expect(ear.listening()).toBeUndefined()
    await hold('talk', true)
    expect(voice.speaking()).toBeUndefined()
    await hear('load figures list')
    expect(log.events.at(-1)).toMatchObject({ type: 'listCalled', evidence: { early: true } })
    voice.end()
    await settled()
    await hear('two four three six zero')
    expect(log.events.at(-1)).toMatchObject({ type: 'answered', item: 'loadFigures.zeroFuelWeight' })
    expect(JSON.stringify(log.events.at(-1))).not.toContain('early')
  })
})

describe('a headset', () => {
  it('listens through its own voice, and an answer before its end is judged and logged as early', async () => {
    const { ear, voice, hear, log, state, settled } = await handsOn({ isHeadset: true }, { holds: true })
    voice.end()
    await settled()
    await hear('load figures list')
    expect(voice.speaking()).toContain('Zero fuel weight?')
    expect(ear.requests.at(-1)).toMatchObject({ listenId: state().listenId, isHeadset: true })
    await hear('two four three six zero')
    expect(log.events.at(-1)).toMatchObject({ judgement: { verdict: 'correct' }, evidence: { early: true } })
    expect(voice.speaking()).toBe('Takeoff trim?')
  })

  it('is needed for that: from a loudspeaker the voice would stop itself', async () => {
    const { ear, voice, clock } = await handsOn({}, { holds: true })
    expect(voice.speaking()).toContain('Figures flow')
    ear.emit({ type: 'speechBegan', listenId: 1, at: clock.now() })
    ear.emit({ type: 'state', state: 'hearing' })
    clock.advance(400)
    expect(voice.speaking()).toContain('Figures flow')
  })

  it('lets a cough pass, and stops its voice for whoever goes on speaking', async () => {
    const { ear, voice, clock, hear, settled } = await handsOn({ isHeadset: true }, { holds: true })
    voice.end()
    await settled()
    await hear('load figures list')
    const listenId = ear.requests.at(-1)?.listenId ?? 0
    const begin = () => {
      ear.emit({ type: 'speechBegan', listenId, at: clock.now() })
      ear.emit({ type: 'state', state: 'hearing' })
    }
    begin()
    ear.emit({ type: 'state', state: 'open' })
    clock.advance(400)
    expect(voice.speaking()).toContain('Zero fuel weight?')
    begin()
    clock.advance(400)
    expect(voice.speaking()).toBeUndefined()
  })

  it('is not the default: the ear is shut while the voice speaks', async () => {
    const { ear } = await handsOn({}, { holds: true })
    expect(ear.listening()).toBeUndefined()
  })
})

describe('the confirm key', () => {
  it('continues after a stand by, and does nothing where it is let go', async () => {
    const { hold, hear, log, state, refused } = await handsOn()
    await hear('stand by')
    const before = log.events.length
    await hold('confirm', false)
    expect([log.events.length, refused.length]).toEqual([before, 0])
    await hold('confirm', true)
    expect(log.events.at(-1)).toMatchObject({ type: 'commanded', command: 'continue', evidence: { by: 'key' } })
    expect([state().standingBy, refused.length]).toEqual([false, 0])
  })

  it('confirms a word item, logged as not read back; a value it never does', async () => {
    const { hold, hear, log, state, refused } = await handsOn()
    await hear('load figures list')
    await hold('confirm', true)
    expect(refused).toHaveLength(1)
    expect(state().floor).toMatchObject({ item: 'loadFigures.zeroFuelWeight' })
    await hear('before start list')
    await hold('confirm', true)
    // The question whether to run it out of order is answered by voice.
    expect(refused).toHaveLength(2)
    await hear('negative')
    await hold('confirm', true)
    expect(log.events.at(-1)).toMatchObject({ type: 'confirmedByKey', evidence: { by: 'key' } })
  })
})
