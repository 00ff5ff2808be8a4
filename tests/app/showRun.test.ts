/** The store in step with a run and with the ear: what they report is what the screens show. */

import { describe, expect, it } from 'vitest'
import { showEar, showRun } from '../../src/app/run/showRun.ts'
import { createAppStore } from '../../src/app/store.ts'
import { compute } from '../../src/kernel/figures/compute.ts'
import type { EarEvent, EarFailure } from '../../src/ports.ts'
import { createFakeEar } from '../fakes/ear.ts'
import { demoInputs, rig } from './rig.ts'

describe('the ear on the screen', () => {
  function shown() {
    const [store, ear] = [createAppStore(), createFakeEar()]
    const leave = showEar(store, ear)
    const before = store.getState().ear
    return { store, ear, leave, before, now: () => store.getState().ear }
  }
  const LOST: EarFailure = { code: 'lost', message: 'The microphone is gone.' }

  const REPORTS: readonly [EarEvent, object][] = [
    [{ type: 'loading', fraction: 0.4 }, { loading: 0.4 }],
    [{ type: 'secondModel', state: 'ready' }, { secondModel: 'ready' }],
    [{ type: 'soFar', listenId: 1, text: 'two four' }, { soFar: 'two four' }],
    [
      { type: 'level', level: -20, noise: -60, clipping: true },
      { level: -20, noise: -60, clipping: true },
    ],
    [{ type: 'state', state: 'hearing' }, { state: 'hearing' }],
    [{ type: 'failed', failure: LOST }, { failure: LOST }],
    [{ type: 'back' }, {}],
    [{ type: 'heard', heard: { listenId: 1, text: 'set', by: 'voice', beganAt: 0, endedAt: 0 } }, {}],
  ]
  it.each(REPORTS)('shows of %j just that', (event, change) => {
    const { ear, before, now } = shown()
    ear.emit(event)
    expect(now()).toEqual({ ...before, ...change })
  })

  it('shows no words of what was said before once something else begins', () => {
    const { ear, now } = shown()
    ear.emit({ type: 'soFar', listenId: 1, text: 'two four' })
    ear.emit({ type: 'speechBegan', listenId: 1, at: 0 })
    expect(now().soFar).toBe('')
  })

  it('shows why it failed as long as it has failed, and no longer', () => {
    const { ear, now } = shown()
    ear.emit({ type: 'failed', failure: LOST })
    ear.emit({ type: 'state', state: 'failed' })
    expect(now()).toMatchObject({ state: 'failed', failure: LOST })
    ear.emit({ type: 'state', state: 'open' })
    expect(now().failure).toBeUndefined()
  })

  it('notes for good why it is another ear than was chosen', () => {
    const { ear, now } = shown()
    ear.emit({ type: 'failed', failure: { code: 'service', message: 'The service is away.' } })
    ear.emit({ type: 'state', state: 'open' })
    expect(now()).toMatchObject({ note: 'The service is away.', failure: undefined })
  })

  it('is left alone from then on, where that is wanted', () => {
    const { ear, leave, before, now } = shown()
    leave()
    ear.emit({ type: 'loading', fraction: 0.4 })
    expect(now()).toBe(before)
  })
})

describe('a run on the screen', () => {
  it('is there at once, with its figures, and no more once it is undone', async () => {
    const { run, pack, hear } = await rig()
    const store = createAppStore({ pack })
    const leave = showRun(store, run)
    expect(store.getState()).toMatchObject({ run: run.state(), revisions: run.revisions() })
    await hear('load figures list')
    expect(store.getState().run).toBe(run.state())
    leave()
    await hear('two four three six zero')
    expect(store.getState().run).not.toBe(run.state())
  })

  it('has the words that are being said, in whose voice, and none after them', async () => {
    const { voice, store, settled } = await rig({ holds: true })
    expect(store.getState().voice).toEqual({ speaking: voice.speaking(), role: 'otherseat', failed: false })
    expect(voice.speaking()).toContain('Figures flow')
    voice.end()
    await settled()
    expect(store.getState().voice.speaking).toBe('')
  })

  it('has no words of an answer any more once it was judged', async () => {
    const { ear, store, hear } = await rig()
    ear.emit({ type: 'level', level: -20, noise: -60, clipping: false })
    ear.emit({ type: 'soFar', listenId: 1, text: 'load figures' })
    await hear('load figures list')
    expect(store.getState().ear).toMatchObject({ soFar: '', level: -20 })
  })
})

describe('what is being typed', () => {
  async function typing() {
    const flight = await rig()
    const typed = await demoInputs(flight.pack, 'final')
    const older = { ...typed, values: { ...typed.values, blockFuel: 5_000 } }
    flight.store.setState({ draft: typed, past: [{ draft: older, changed: 'values.blockFuel' }] })
    const now = () => flight.store.getState()
    return { ...flight, typed, older, now }
  }

  it('gives way to figures that were entered: it is what they are, and its past is done with', async () => {
    const { run, now, typed, pack } = await typing()
    await run.enter(typed)
    expect(now()).toMatchObject({ draft: typed, past: [] })
    expect(now().preview).toEqual(compute(pack.figures, typed))
  })

  it('can be fetched back where other figures came in meanwhile', async () => {
    const { revise, now, typed, older, pack } = await typing()
    await revise('amended')
    expect(now().draft).toEqual(await demoInputs(pack, 'amended'))
    expect(now().past.map(({ draft }) => draft)).toEqual([older, typed])
  })

  it('takes in what was read aloud, as does what it was before', async () => {
    const { hear, now, typed, older, pack } = await typing()
    await hear('load figures list')
    await hear('cross check takeoff weight')
    await hear('two nine four two zero')
    const stated = { ...typed.stated, flightComputer: { takeoffWeight: 29_420 } }
    expect(now().draft).toEqual({ ...typed, stated })
    expect(now().past.map(({ draft }) => draft)).toEqual([{ ...older, stated }])
    expect(now().preview).toEqual(compute(pack.figures, now().draft))
  })

  it('takes in the situation that the run is in, as does what it was before, and loses nothing of it', async () => {
    const { run, now, typed, older, settled } = await typing()
    const evidence = { by: 'key', text: '' } as const
    await run.happen({ type: 'situationSet', name: 'icing', value: 'yes', evidence })
    await settled()
    expect(now().draft).toEqual({ ...typed, situation: { ...typed.situation, icing: 'yes' } })
    expect(now().past).toEqual([
      { draft: { ...older, situation: { ...older.situation, icing: 'yes' } }, changed: 'values.blockFuel' },
    ])
  })

  it('is left as it is by all else that happens', async () => {
    const { hear, now } = await typing()
    const { draft, past, preview } = now()
    await hear('load figures list')
    expect([now().draft, now().past, now().preview]).toEqual([draft, past, preview])
    expect(now().draft).toBe(draft)
  })
})
