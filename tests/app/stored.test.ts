/** Law 6: an event is stored before its effect is said, shown or listened for; and what holds where it cannot be stored. */

import { describe, expect, it } from 'vitest'
import { createRecord, type Storage } from '../../src/app/run/record.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { readEvents } from '../../src/kernel/run/core/readLog.ts'
import { fold } from '../../src/kernel/run/core/step.ts'
import { createFakeLog } from '../fakes/log.ts'
import { demoInputs, idle, rig } from './rig.ts'

async function atTrim() {
  const flight = await rig()
  await flight.hear('load figures list')
  await flight.hear('two four three six zero')
  expect(flight.said()).toBe('Takeoff trim?')
  return flight
}
type Flight = Awaited<ReturnType<typeof atTrim>>

/** All that the pilot can notice. */
const noticed = ({ voice, ear, store }: Flight) => ({
  said: voice.said.length,
  tones: voice.tones.length,
  orders: ear.requests.length,
  listening: ear.listening()?.listenId,
  screen: store.getState(),
})

const event = (seq: number): RunEvent => ({
  ...{ v: 1, seq, runId: 'a', t: 0, wall: '2000-01-01T00:00:00Z' },
  type: 'resumed',
})

describe('stored before spoken', () => {
  const HAPPENINGS: readonly [what: string, happens: (flight: Flight) => void, said: string][] = [
    ['a right answer', ({ ear }) => ear.hear('four point three up'), 'V one?'],
    ['a wrong answer', ({ ear }) => ear.hear('four point eight up'), 'I heard four point eight up.'],
    ['a command', ({ ear }) => ear.hear('say again'), 'Takeoff trim?'],
    ['silence', ({ clock }) => clock.advance(8_000), 'Takeoff trim?'],
  ]
  it.each(HAPPENINGS)('%s draws nothing until it is stored', async (_, happens, said) => {
    const flight = await atTrim()
    const release = flight.log.hold()
    const before = noticed(flight)
    const stored = flight.log.events.length
    happens(flight)
    await idle()
    expect(noticed(flight)).toEqual(before)
    expect(flight.log.events).toHaveLength(stored)
    release()
    await flight.settled()
    expect(flight.log.events).toHaveLength(stored + 1)
    expect(noticed(flight)).toMatchObject({ said: before.said + 1, orders: before.orders + 1 })
    expect(flight.said()).toBe(said)
    expect(flight.store.getState().run).toBe(flight.state())
  })

  it('a correction is stored before the answer in the same breath is judged', async () => {
    const flight = await atTrim()
    await flight.hear('four point three up')
    const release = flight.log.hold()
    const before = noticed(flight)
    flight.ear.hear('correction four point three up')
    await idle()
    expect(noticed(flight)).toEqual(before)
    release()
    await flight.settled()
    expect(flight.log.events.slice(-2).map(({ type }) => type)).toEqual(['commanded', 'answered'])
  })

  it('figures that come in change neither screen nor challenge until they are stored', async () => {
    const flight = await atTrim()
    const final = await demoInputs(flight.pack, 'final')
    const release = flight.log.hold()
    const before = noticed(flight)
    const revised = flight.run.enter(final)
    await idle()
    expect(noticed(flight)).toEqual(before)
    expect(flight.run.revisions()).toHaveLength(1)
    release()
    await revised
    await flight.settled()
    expect(flight.store.getState().revisions).toHaveLength(2)
    expect(flight.said()).toMatch(/^Final figures are in/)
  })
})

describe('where the log cannot be stored', () => {
  const isWhole = ({ run, pack, state }: Flight) => {
    const { events, problem } = readEvents(run.events())
    expect(problem).toBeUndefined()
    expect(fold(pack, 'run', events)).toEqual(state())
  }

  it('the pilot is told before anything more is said, and the run goes on in memory', async () => {
    const flight = await atTrim()
    flight.log.refuse('The disk is full.')
    const order: string[] = []
    flight.store.subscribe(({ storage }, before) => {
      if (storage !== before.storage) order.push(`kept: ${storage.kept}, said: ${flight.said()}`)
    })
    await flight.hear('four point three up')
    expect(order).toEqual(['kept: false, said: Takeoff trim?'])
    expect(flight.voice.tones).toContain('attention')
    expect(flight.store.getState().storage).toEqual({ kept: false, message: 'The disk is full.' })
    expect(flight.state().floor).toMatchObject({ item: 'loadFigures.v1' })
    isWhole(flight)
  })

  it('for good, nothing of the run is lost: all of it can be saved, and the pilot is told once', async () => {
    const flight = await atTrim()
    flight.log.refuse('The disk is full.')
    const tones = flight.voice.tones.filter((tone) => tone === 'attention').length
    const speeds = ['one two six', 'one three two', 'one three nine']
    for (const text of [
      'four point three up',
      ...speeds,
      'niner zero point four',
      'edition one, seven zero on board',
    ]) {
      await flight.hear(text)
    }
    expect(flight.state().lists.loadFigures).toMatchObject({ complete: true })
    expect(flight.log.events.length).toBeLessThan(flight.run.events().length)
    expect(flight.voice.tones.filter((tone) => tone === 'attention')).toHaveLength(tones + 1)
    isWhole(flight)
  })

  it.each([
    ['once', 1],
    ['for a while', 3],
  ])('%s, what is missing is stored with the next event, in order, and the pilot is told', async (_, times) => {
    const flight = await atTrim()
    flight.log.refuse('The disk is full.', times)
    for (let event = 0; event < times; event++) await flight.hear('say again')
    expect(flight.store.getState().storage.kept).toBe(false)
    await flight.hear('four point three up')
    expect(flight.store.getState().storage).toEqual({ kept: true, message: '' })
    expect(flight.log.events).toEqual(flight.run.events())
  })

  it('as long as there is no room, and stored whole once there is', async () => {
    const flight = await atTrim()
    flight.log.refuse('The browser has no room left for the log.')
    await flight.hear('four point three up')
    await flight.hear('one two six')
    flight.log.accept()
    await flight.hear('one three two')
    expect(flight.store.getState().storage.kept).toBe(true)
    expect(flight.log.events).toEqual(flight.run.events())
  })

  it('the tone comes when that is told, and not when it is stored again', async () => {
    const flight = await atTrim()
    const tones = () => flight.voice.tones.filter((tone) => tone === 'attention').length
    const before = tones()
    flight.log.refuse('The disk is full.', 1)
    await flight.hear('four point three up')
    expect(tones()).toBe(before + 1)
    await flight.hear('one two six')
    expect(flight.store.getState().storage.kept).toBe(true)
    expect(tones()).toBe(before + 1)
  })

  it('for another reason than before, the pilot is told the new one', async () => {
    const told: Storage[] = []
    const log = createFakeLog()
    const record = createRecord(log, [], (storage) => told.push(storage))
    log.refuse('The disk is full.')
    await record.add(event(0))
    await record.add(event(1))
    log.refuse('Storage is off.')
    await record.add(event(2))
    expect(told.map(({ message }) => message)).toEqual(['The disk is full.', 'Storage is off.'])
  })

  it('for a reason that is no error of its own, the pilot is told it in its words', async () => {
    const told: Storage[] = []
    const log = { append: () => Promise.reject('QuotaExceeded') }
    await createRecord(log, [], (storage) => told.push(storage)).add(event(0))
    expect(told).toEqual([{ kept: false, message: 'QuotaExceeded' }])
  })

  it('and what it holds of the run already is not stored again', async () => {
    const appended: RunEvent[] = []
    const log = { append: async (one: RunEvent) => void appended.push(one) }
    const before = [event(0), event(1)]
    const record = createRecord(log, before, () => {})
    await record.add(event(2))
    expect(appended).toEqual([event(2)])
    expect(record.events()).toEqual([event(0), event(1), event(2)])
    expect(before).toHaveLength(2)
  })

  it('and nothing is told as long as everything is stored', async () => {
    const told: Storage[] = []
    const record = createRecord(createFakeLog(), [], (storage) => told.push(storage))
    await record.add(event(0))
    expect(told).toEqual([])
  })

  it('once there is room again, the pilot is told that it is stored', async () => {
    const told: Storage[] = []
    const log = createFakeLog()
    const record = createRecord(log, [], (storage) => told.push(storage))
    log.refuse('', 1)
    await record.add(event(0))
    await record.add(event(1))
    expect(told).toEqual([
      { kept: false, message: '' },
      { kept: true, message: '' },
    ])
  })
})
