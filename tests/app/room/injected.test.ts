/** What an instructor has happen in a run: the pilot meets it as if it came by itself, and the debrief tells it. */

import { describe, expect, it } from 'vitest'
import { newEdition, paperValues } from '../../../src/app/room/newEdition.ts'
import { viewOf } from '../../../src/app/view/view.ts'
import type { RunEvent } from '../../../src/kernel/run/core/events.ts'
import type { Injection } from '../../../src/kernel/run/core/injections.ts'
import { injectedLine } from '../../../src/kernel/run/core/injections.ts'
import { debriefOf } from '../../../src/kernel/run/debrief/debrief.ts'
import { marramLines } from '../../flight/lines.ts'
import { upTo } from '../flown.ts'
import { rig } from '../rig.ts'

const JET = marramLines('icao', 'push')
const TALK = 'tests/cli/answers/talk.yaml'

async function aboard(before: readonly (string | number)[] = [], hasStations = true) {
  const flight = await rig({ ...(hasStations && { talk: TALK }), settings: { radio: 'icao' } })
  const { run, hear, pass, voice, settled } = flight
  const say = async (line: string | number) => {
    const at = voice.said.length
    await pass(typeof line === 'number' ? line * 1_000 : 1_500)
    if (typeof line === 'string') await hear(line, { by: 'typed' })
    return voice.said.slice(at).map(({ text }) => text)
  }
  for (const line of before) await say(line)
  let orders = 0
  const inject = async (what: Injection, order = `order ${++orders}`) => {
    const at = voice.said.length
    await run.happen({ type: 'injected', order, by: 'Rook', given: '2026-01-01T00:00:00Z', what })
    await settled()
    return voice.said.slice(at)
  }
  const debrief = async () => {
    await run.happen({ type: 'ended' })
    return debriefOf(flight.pack, run.events() as RunEvent[])
  }
  return { ...flight, say, inject, debrief }
}

describe('a call from the cabin', () => {
  it('comes in the middle of an item, and is over with a word; the debrief tells who had it happen and where it went on', async () => {
    const { inject, say, debrief, state } = await aboard(['load figures list'], false)
    expect(state().floor).toMatchObject({ at: 'item' })
    const [cabin, own] = await inject({ kind: 'cabin' })
    expect(cabin?.text).toBe('Cabin here, one moment please.')
    expect(own?.text).toMatch(/^Holding at /)
    await say('go ahead')
    await say('two four three six zero')
    const told = await debrief()
    expect(told.injected).toMatchObject([{ by: 'Rook', isTaken: true, what: { kind: 'cabin' } }])
    expect(told.partner?.breaks).toMatchObject([{ by: 'cabin', place: 'right' }])
  })

  it('cannot come where no item is open, and the debrief says so', async () => {
    const { inject, debrief } = await aboard([], false)
    expect(await inject({ kind: 'cabin' })).toEqual([])
    expect((await debrief()).injected).toMatchObject([{ isTaken: false }])
  })
})

describe('"stop" from the ground crew', () => {
  it('in the push: asks for the brakes, and the push is called for anew', async () => {
    const { inject, say, state } = await aboard(upTo(JET, 'clear to start'))
    expect((await inject({ kind: 'stop' })).map(({ text }) => text)).toEqual(['Stopping. Confirm brakes set.'])
    expect(state().question).toEqual({ about: 'brakes' })
    await say('brakes set')
    expect(state().standingBy).toBe(true)
  })

  it('does nothing where nobody is on the line', async () => {
    const { inject, state } = await aboard(['load figures list'])
    expect(await inject({ kind: 'stop' })).toEqual([])
    expect(state().question).toBeUndefined()
  })
})

it('a paper that comes anew is called by its name, lies on the table, and changes no figure in force', async () => {
  const { inject, pack, state } = await aboard(['load figures list'], false)
  const sheet = { ...state().inputs } as NonNullable<Injection['sheet']>
  await inject({ kind: 'paper', sheet }, 'first')
  const [flap] = paperValues(pack, state()).filter(({ key }) => key === 'takeoffData figure takeoffFlap')
  expect(flap).toMatchObject({ paper: 'takeoff data', text: '12' })
  const other = flap?.options?.find((one) => one !== '12') ?? ''
  const made = newEdition(pack, state(), flap?.key ?? '', other)
  if ('wrong' in made) throw new Error(made.wrong)
  const said = await inject({ kind: 'paper', ...made })
  expect(said.map(({ text }) => text).join()).toMatch(/takeoff data, edition 2/i)
  expect(state().values.takeoffFlap).toBe('12')
  expect(paperValues(pack, state()).find(({ key }) => key === flap?.key)?.text).toBe(other)
})

it.each([
  ['takeoffData figure takeoffFlap', 'sideways'],
  ['takeoffData figure v1', 'fast'],
  ['loadSheet load frontHold', '-4'],
  ['loadSheet figure nothing', '4'],
])('%s takes no "%s", and says why', async (key, typed) => {
  const { pack, state } = await aboard([], false)
  expect(newEdition(pack, state(), key, typed)).toEqual({ wrong: expect.stringMatching(/^[A-Z].*\.$/) })
})

it('a deaf ear says so, takes nothing that is said, and takes what is typed', async () => {
  const { inject, hear, say, pass, state, run, voice, settled } = await aboard(['load figures list'], false)
  expect((await inject({ kind: 'deaf', seconds: 20 })).map(({ text }) => text).join()).toMatch(/^Nothing heard/)
  const open = state().floor
  const { length } = run.events()
  await pass(1_500)
  await hear('two four three six zero')
  expect(run.events()).toHaveLength(length)
  await say('two four three six zero')
  expect(run.events().at(-1)).toMatchObject({ type: 'answered', judgement: { verdict: 'correct' } })
  const next = state().floor
  expect(next).not.toEqual(open)
  await run.happen({ type: 'earBack' })
  await settled()
  expect(voice.said.at(-1)?.text).toMatch(/hear/i)
  expect(state().isDeafened).toBeUndefined()
})

it('the controller comes back with a wrong word after the next read-back', async () => {
  const { inject, state } = await aboard(['load figures list'])
  expect(await inject({ kind: 'slip', seed: 4 })).toEqual([])
  expect(state().script?.slip).toMatchObject({ kind: 'saysAnother', seed: 4 })
  expect(state().injected).toMatchObject([{ isTaken: true }])
})

it('no order acts twice', async () => {
  const { inject, state } = await aboard(['load figures list'], false)
  await inject({ kind: 'cabin' }, 'one')
  expect(await inject({ kind: 'cabin' }, 'one')).toEqual([])
  expect(state().injected).toHaveLength(1)
})

describe('gauges of a start', () => {
  it('show what the instructor says on the screen alone; the debrief tells how long it took to be called', async () => {
    const { inject, say, debrief, pack, state, voice } = await aboard(upTo(JET, 'starting the right engine'))
    const watch = viewOf(pack, state()).watch
    expect(watch?.shows).toBeUndefined()
    const before = voice.said.length
    expect(await inject({ kind: 'start', abnormal: 'noLight', words: 'no light up' })).toEqual([])
    expect(voice.said).toHaveLength(before)
    expect(viewOf(pack, state()).watch?.shows).toBe('no light up')
    await say(4)
    await say('no light up')
    expect(viewOf(pack, state()).watch?.status).toBe('stopped')
    const told = await debrief()
    expect(told.injected).toMatchObject([{ isTaken: true, met: { because: 'no light up' } }])
    expect(told.injected.map(injectedLine)).toEqual([
      expect.stringMatching(/^Rook: gauges that show no light up, at .+; stopped after [4-8] s, no light up$/),
    ])
  })

  it('are not to be had where no start runs, or where the start has no such call', async () => {
    const { inject, say, debrief } = await aboard(upTo(JET, 'clear to start'))
    await inject({ kind: 'start', abnormal: 'noLight', words: 'no light up' })
    await say('starting the right engine')
    await inject({ kind: 'start', abnormal: 'nothing', words: 'nothing' })
    await inject({ kind: 'start', abnormal: 'noLight', words: 'no light up' })
    const lines = (await debrief()).injected.map(injectedLine)
    expect(lines.map((line) => line.replace(/^.*; /, ''))).toEqual([
      ...['it could not happen there', 'it could not happen there', 'the start was not stopped'],
    ])
  })
})

describe('a fault of the other seat', () => {
  it('comes at its next chance, once, is nowhere announced, and is caught as any other', async () => {
    const { inject, say, state, debrief } = await aboard(['load figures list'], false)
    expect(await inject({ kind: 'partner', seed: 3 })).toEqual([])
    const lines = ['two four three six zero', 'four point three up', 'one two six', 'one three two', 'one three nine']
    for (const line of lines) await say(line)
    const faults = (state().partner?.chances ?? []).filter(({ fault }) => fault)
    expect(faults).toHaveLength(1)
    const told = await debrief()
    expect(told.partner?.counts.faults).toBe(1)
    expect(told.injected).toMatchObject([{ by: 'Rook', isTaken: true, what: { kind: 'partner' } }])
  })
})
