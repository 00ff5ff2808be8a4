/** One run without a screen: the figures that come into it, in whatever order, and what is left of it when it is closed. */

import { describe, expect, it } from 'vitest'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { dealtBy } from '../../src/app/run/beginning.ts'
import { createSession, type SessionEvent } from '../../src/app/run/session.ts'
import { newRun, replayed } from '../../src/app/run/storedRun.ts'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { createFakeEar } from '../fakes/ear.ts'
import { createFakeLog } from '../fakes/log.ts'
import { createFakeVoice } from '../fakes/voice.ts'
import { demoInputs, demoPack, idle, rig } from './rig.ts'

const NUMBER = 42

async function atTrim() {
  const flight = await rig()
  await flight.hear('load figures list')
  await flight.hear('two four three six zero')
  return flight
}

describe('the revisions of a run', () => {
  it('are the same after a reload, with what each opened again', async () => {
    const flight = await atTrim()
    await flight.revise('final')
    const revisions = flight.run.revisions()
    expect(revisions.map(({ revision, reopened }) => [revision, reopened])).toEqual([
      [1, []],
      [2, ['zero fuel weight']],
    ])
    expect(replayed(flight.pack, flight.log.events).revisions).toEqual(revisions)
    expect(flight.store.getState().revisions).toBe(revisions)
  })

  it('that come in at once have numbers of their own, and each is compared with the one before it', async () => {
    const { run, pack, hear, settled } = await rig()
    const [final, amended] = [await demoInputs(pack, 'final'), await demoInputs(pack, 'amended')]
    await hear('cross check takeoff weight')
    const all = [hear('two nine four two zero'), run.enter(final), run.enter(amended)]
    await Promise.all(all)
    await settled()
    const events = run.events().flatMap((event) => (event.type === 'figuresRevised' ? [event] : []))
    expect(events.map(({ revision }) => revision)).toEqual([1, 2, 3, 4])
    for (const [index, { changes }] of events.entries()) {
      const before = events[index - 1]?.values ?? {}
      expect(changes.filter(({ spoken }) => spoken).map(({ figure, from }) => [figure, from])).toEqual(
        changes.filter(({ spoken }) => spoken).map(({ figure }) => [figure, before[figure]]),
      )
    }
    expect(run.state().inputs?.stated?.flightComputer).toEqual({ takeoffWeight: 29_420 })
  })
})

/** On preliminary figures that were dealt, or gone on with from a log. */
async function dealt(events?: Parameters<typeof replayed>[1], now?: number) {
  const pack = await demoPack()
  const departure = dealtBy(pack, NUMBER)
  if (!departure) throw new Error('the demo pack deals nothing')
  const clock = createVirtualClock(now)
  const [ear, voice, log] = [createFakeEar(clock.now), createFakeVoice(), createFakeLog()]
  for (const event of events ?? []) await log.append(event)
  const soFar = events ? replayed(pack, events) : newRun(pack, 'run')
  const run = createSession({ clock, log, ear, voice, settings: () => DEFAULT_SETTINGS }, soFar)
  const settings = { phraseology: 'plain', coachAfter: 0 } as const
  await (events ? run.resume() : run.begin({ inputs: departure.preliminary, settings, dealt: NUMBER }))
  await run.settled()
  const status = () => run.state().figureStatus
  const pass = (ms: number) => clock.pass(ms, run.settled)
  return { run, clock, voice, ear, log, status, pass, dueMs: departure.finalAfterMinutes * 60_000 }
}

describe('the final figures of a dealt departure', () => {
  it('come in at their time', async () => {
    const { status, pass, dueMs } = await dealt()
    await pass(dueMs - 1)
    expect(status()).toBe('preliminary')
    await pass(1)
    expect(status()).toBe('final')
  })

  it('come in once, however often the run is taken up again', async () => {
    const { run, pass, dueMs } = await dealt()
    await run.resume()
    await run.resume()
    await pass(2 * dueMs)
    expect(run.revisions()).toHaveLength(2)
  })

  it('come in at the same time after a reload, or at once where that has passed', async () => {
    const first = await dealt()
    await first.pass(1_000)
    first.run.close()
    const early = await dealt(first.log.events, first.clock.now())
    await early.pass(first.dueMs - 1_001)
    expect(early.status()).toBe('preliminary')
    await early.pass(1)
    expect(early.status()).toBe('final')
    const late = await dealt(first.log.events, first.clock.now() + first.dueMs)
    await late.pass(0)
    expect(late.status()).toBe('final')
  })

  it('are not wanted any more where somebody has entered final ones', async () => {
    const { run, pass, dueMs } = await dealt()
    await run.enter(await demoInputs(run.pack, 'final'))
    await pass(dueMs)
    expect(run.revisions()).toHaveLength(2)
  })

  it('that were due while a bug had stopped the run come in when it goes on', async () => {
    const { run, status, pass, dueMs } = await dealt()
    await run.happen(() => {
      throw new Error('a bug')
    })
    await pass(dueMs)
    expect(status()).toBe('preliminary')
    await run.resume()
    await pass(0)
    expect(status()).toBe('final')
  })
})

describe('a run that is closed', () => {
  it('waits for no more figures', async () => {
    const { run, log, pass, dueMs } = await dealt()
    run.close()
    const before = log.events.length
    await pass(2 * dueMs)
    expect(log.events).toHaveLength(before)
  })

  it('says nothing more, not even of what was being stored', async () => {
    const flight = await atTrim()
    const release = flight.log.hold()
    flight.ear.hear('four point three up')
    await idle()
    flight.run.close()
    const before = { said: flight.voice.said.length, tones: flight.voice.tones.length }
    release()
    await flight.settled()
    flight.clock.advance(600_000)
    await flight.settled()
    expect({ said: flight.voice.said.length, tones: flight.voice.tones.length }).toEqual(before)
    expect(flight.ear.listening()).toBeUndefined()
    expect(flight.log.events.at(-1)).toMatchObject({ type: 'answered' })
  })
})

describe('a run that is closed in the middle', () => {
  it('counts no more silence, and hears nothing more', async () => {
    const flight = await atTrim()
    expect(flight.clock.pending()).toBeGreaterThan(0)
    flight.run.close()
    await flight.settled()
    expect(flight.clock.pending()).toBe(0)
    const before = flight.log.events.length
    flight.ear.hear('four point three up', { listenId: flight.state().listenId })
    await flight.settled()
    expect(flight.log.events).toHaveLength(before)
  })

  it('stops speaking', async () => {
    const flight = await rig({ holds: true })
    expect(flight.voice.speaking()).toContain('Figures flow')
    flight.run.close()
    expect(flight.voice.speaking()).toBeUndefined()
  })
})

describe('an answer in a run', () => {
  const evidence = ({ log }: { readonly log: { readonly events: readonly object[] } }) =>
    (log.events.at(-1) as { evidence?: object } | undefined)?.evidence

  it('that is typed while the voice speaks is not early: nobody talks into it', async () => {
    const flight = await rig({ holds: true })
    const { listenId } = flight.state()
    flight.ear.hear('load figures list', { listenId, by: 'typed' })
    await flight.settled()
    expect(evidence(flight)).toMatchObject({ by: 'typed', text: 'load figures list' })
    expect(evidence(flight)).not.toHaveProperty('early')
  })

  it('that began after the sound had ended is not early, though the page learned of the end later', async () => {
    const pack = await demoPack()
    const clock = createVirtualClock()
    const [ear, log] = [createFakeEar(clock.now), createFakeLog()]
    const voice = { ...createFakeVoice({ holds: true }), endedAt: () => clock.now() - 500 }
    const run = createSession({ clock, log, ear, voice, settings: () => DEFAULT_SETTINGS }, newRun(pack, 'run'))
    await run.begin({
      inputs: await demoInputs(pack, 'preliminary'),
      settings: { phraseology: 'plain', coachAfter: 0 },
    })
    await idle()
    clock.skip(5_000)
    voice.end()
    await idle()
    ear.hear('load figures list', { beganAt: clock.now() - 501 })
    await idle()
    expect(evidence({ log })).toMatchObject({ early: true })
    voice.end()
    await idle()
    const endedAt = clock.now()
    clock.skip(700)
    ear.hear('two four three six zero', { beganAt: clock.now() - 500 })
    await idle()
    // The sound had ended half a second before the page learned of it.
    expect(evidence({ log })).toMatchObject({ saidUntil: endedAt - 500, beganAt: endedAt + 200 })
    expect(evidence({ log })).toMatchObject({ text: 'two four three six zero' })
    expect(evidence({ log })).not.toHaveProperty('early')
  })

  it('after the voice was cut off in silence is not early: there was nothing to cut off', async () => {
    const flight = await rig()
    flight.run.interrupt()
    await flight.hear('load figures list')
    expect(flight.log.events.at(-1)).toMatchObject({ type: 'listCalled' })
    expect(evidence(flight)).not.toHaveProperty('early')
  })
})

describe('silence', () => {
  it('is counted also while the ear has not told anything of itself', async () => {
    const pack = await demoPack()
    const clock = createVirtualClock()
    const ear = { ...createFakeEar(clock.now), listen() {}, shut() {} }
    const voice = createFakeVoice()
    const soFar = newRun(pack, 'run')
    const run = createSession({ clock, log: createFakeLog(), ear, voice, settings: () => DEFAULT_SETTINGS }, soFar)
    await run.begin({
      inputs: await demoInputs(pack, 'preliminary'),
      settings: { phraseology: 'plain', coachAfter: 0 },
    })
    const evidence = { by: 'key', text: '' } as const
    await run.happen({ type: 'listCalled', list: 'loadFigures', evidence })
    await run.settled()
    const before = voice.said.length
    await clock.pass(8_000, run.settled)
    expect(voice.said.slice(before).map(({ text }) => text)).toEqual(['Zero fuel weight?'])
  })
})

describe('a sheet that comes with a situation of its own', () => {
  const situations = (events: readonly RunEvent[]) =>
    events.flatMap((event) => (event.type === 'situationSet' ? [event] : []))

  it('changes what differs in the run, as by a key, before its figures count', async () => {
    const { run, pack, settled } = await rig()
    const final = await demoInputs(pack, 'final')
    await run.enter({ ...final, situation: { stand: 'push', icing: 'yes' } })
    await settled()
    expect(situations(run.events())).toMatchObject([{ name: 'icing', value: 'yes', evidence: { by: 'key', text: '' } }])
    expect(
      run
        .events()
        .slice(-2)
        .map(({ type }) => type),
    ).toContain('figuresRevised')
    expect(run.state().situation).toMatchObject({ stand: 'push', icing: 'yes' })
  })

  it('changes nothing where it says nothing, or what holds already', async () => {
    const { run, pack, settled } = await rig()
    const { situation: _, ...final } = await demoInputs(pack, 'final')
    await run.enter(final)
    await run.enter({ ...final, situation: { stand: 'push' } })
    await settled()
    expect(run.revisions()).toHaveLength(3)
    expect(situations(run.events())).toEqual([])
  })
})

describe('what a run tells', () => {
  it.each([
    ['spoken', false],
    ['failed', true],
  ] as const)('is each text that is said, and whether it could be heard (%s)', async (outcome, failed) => {
    const flight = await rig({ outcome })
    const told: SessionEvent[] = []
    flight.run.subscribe((event) => event.type === 'speaking' && told.push(event))
    await flight.hear('load figures list')
    const text = 'Load figures list. Zero fuel weight?'
    expect(told).toContainEqual({ type: 'speaking', text, role: 'otherseat', failed })
    expect(told.some((event) => event.type === 'speaking' && event.failed)).toBe(failed)
  })
})

describe('a pilot who makes long pauses', () => {
  it.each([
    ['long', true],
    ['usual', undefined],
  ] as const)('is waited for longer (%s pauses)', async (pauses, isPatient) => {
    const flight = await rig()
    flight.store.setState(({ settings }) => ({ settings: { ...settings, pauses } }))
    await flight.hear('load figures list')
    expect(flight.ear.requests.at(-1)?.isPatient).toBe(isPatient)
  })
})
