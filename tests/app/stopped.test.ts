/** A bug thrown anywhere on the way of an event stops the run with its message, and nothing that was said is lost. */

import { describe, expect, it } from 'vitest'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { createSession, type SessionEvent } from '../../src/app/run/session.ts'
import { replayed } from '../../src/app/run/storedRun.ts'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import { viewOf } from '../../src/app/view/view.ts'
import { readEvents } from '../../src/kernel/run/core/readLog.ts'
import type { RunState } from '../../src/kernel/run/core/state.ts'
import { createFakeEar } from '../fakes/ear.ts'
import { createFakeLog } from '../fakes/log.ts'
import { createFakeVoice } from '../fakes/voice.ts'
import { rig } from './rig.ts'

const flown = await rig()
await flown.hear('load figures list')
const EVENTS = [...flown.log.events]

/** At the first item of a list, or at a place that the pack does not have, where look-ups throw. */
async function session(floor?: RunState['floor']) {
  const clock = createVirtualClock()
  const [ear, voice, log] = [createFakeEar(clock.now), createFakeVoice(), createFakeLog()]
  for (const event of EVENTS) await log.append(event)
  const soFar = replayed(flown.pack, EVENTS)
  const state = { ...soFar.state, ...(floor && { floor }) }
  const run = createSession({ clock, log, ear, voice, settings: () => DEFAULT_SETTINGS }, { ...soFar, state })
  if (!floor) await run.resume()
  await run.settled()
  return { run, ear, voice, log, clock }
}
type Broken = Awaited<ReturnType<typeof session>>

function expectStopped({ run, ear, log }: Broken, message: RegExp) {
  expect(run.state()).toMatchObject({ status: 'stopped', stoppedBecause: expect.stringMatching(message) })
  expect(log.events.at(-1)).toMatchObject({ type: 'stopped', message: expect.stringMatching(message) })
  expect(ear.listening()).toBeUndefined()
  expect(run.events()).toEqual(log.events)
  expect(readEvents(log.events).problem).toBeUndefined()
}

describe('a bug', () => {
  it('while what was said is interpreted stops the run, and what was said is in the log', async () => {
    const on = await session({ at: 'item', list: 'loadFigures', item: 'loadFigures.nope' })
    const { run, ear, log } = on
    ear.hear('two four three six zero', { listenId: run.state().listenId, score: 0.9 })
    await run.settled()
    expectStopped(on, /nope/)
    expect(log.events.at(-1)).toMatchObject({
      evidence: { by: 'voice', text: 'two four three six zero', score: 0.9 },
    })
    expect(viewOf(flown.pack, { ...run.state(), floor: { at: 'end' } })).toMatchObject({
      headline: 'Stopped',
      hint: expect.stringContaining('nope'),
    })
  })

  it('while a key is interpreted stops the run', async () => {
    const on = await session()
    await on.run.happen(() => {
      throw new Error('a bug in a key')
    })
    expectStopped(on, /^a bug in a key$/)
  })

  it('in the runner stops the run, and the evidence is kept', async () => {
    const on = await session()
    const evidence = { by: 'key', text: '' } as const
    await on.run.happen({ type: 'listCalled', list: 'nope', evidence })
    await on.run.settled()
    expectStopped(on, /nope/)
    expect(on.log.events.at(-1)).toMatchObject({ evidence })
  })

  it('where the screen is told stops the run, and the ear is shut all the same', async () => {
    const on = await session()
    on.run.subscribe((event: SessionEvent) => {
      if (event.type === 'happened') throw new Error('a bug on the screen')
    })
    on.ear.hear('two four three six zero')
    await on.run.settled()
    expect(on.log.events.slice(-2).map(({ type }) => type)).toEqual(['answered', 'stopped'])
    expectStopped(on, /^a bug on the screen$/)
  })

  it('while effects are performed stops the run', async () => {
    const on = await session()
    on.ear.listen = () => {
      throw new Error('a bug in the ear')
    }
    on.ear.hear('two four three six zero')
    await on.run.settled()
    expectStopped(on, /^a bug in the ear$/)
  })

  it('leaves the item open, and nothing that is said after it counts', async () => {
    const on = await session()
    const { run, log } = on
    await run.happen(() => {
      throw new Error('a bug')
    })
    await run.hear({
      listenId: run.state().listenId,
      text: 'two four three six zero',
      by: 'typed',
      beganAt: 0,
      endedAt: 0,
    })
    on.clock.advance(600_000)
    await run.settled()
    expectStopped(on, /^a bug$/)
    expect(run.state().items['loadFigures.zeroFuelWeight']?.status).toBe('open')
    expect(log.events.filter(({ type }) => type === 'stopped')).toHaveLength(1)
  })
})

it('a run that a bug has stopped is taken up again at the same item', async () => {
  const on = await session()
  await on.run.happen(() => {
    throw new Error('a bug')
  })
  const again = await rig({ events: on.log.events })
  expect(again.state().status).toBe('stopped')
  await again.run.resume()
  await again.settled()
  expect(again.state()).toMatchObject({ status: 'running', floor: { item: 'loadFigures.zeroFuelWeight' } })
  expect(again.said()).toContain('Zero fuel weight?')
  await again.hear('two four three six zero')
  expect(again.said()).toBe('Takeoff trim?')
})

it('what has ended is over: nothing is stored behind it', async () => {
  const { run, log } = await session()
  await run.happen({ type: 'ended' })
  await run.hear({ listenId: run.state().listenId, text: 'five', by: 'typed', beganAt: 0, endedAt: 0 })
  await run.resume()
  expect(log.events.at(-1)?.type).toBe('ended')
})

it('what a bug has stopped may still be ended', async () => {
  const { run, log } = await session()
  await run.happen(() => {
    throw new Error('a bug')
  })
  await run.happen({ type: 'ended' })
  expect(log.events.at(-1)).toMatchObject({ type: 'ended' })
  expect(run.state().status).toBe('ended')
})
