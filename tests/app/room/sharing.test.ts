/** A trainee's run and the instructor's view of it, over documents that only grow: the same on both sides, whatever came between. */

import { expect, it, vi } from 'vitest'
import { share } from '../../../src/app/room/sharing.ts'
import { traineeView } from '../../../src/app/room/traineeView.ts'
import { watchLog } from '../../../src/app/room/watching.ts'
import { createAppStore } from '../../../src/app/store.ts'
import { createFakeRoom, type FakeRoom } from '../../fakes/roomDocuments.ts'
import { type RigOptions, rig } from '../rig.ts'

async function trainee(room: FakeRoom, options: RigOptions = {}) {
  const flight = await rig(options)
  const marked = vi.fn()
  const { store, run, clock } = flight
  const leave = share({ store, clock, documents: room.documents(), seat: 'a', session: () => run, marked })
  return { ...flight, marked, leave }
}

function instructor(room: FakeRoom) {
  const store = createAppStore({ writer: 'elsewhere' })
  return { store, ...watchLog(room.entries('log', 'a'), store) }
}

const order = (id: string, more: object = {}) =>
  JSON.stringify({ id, seat: 'a', runId: 'run', by: 'Rook', given: '', what: { kind: 'cabin' }, ...more })

it('the instructor has the state of the trainee after each event, with what was said last and the revisions', async () => {
  const room = createFakeRoom()
  const { hear, run, revise, store } = await trainee(room)
  const seen = instructor(room)
  await vi.waitFor(() => expect(seen.store.getState().run?.seq).toBe(run.state().seq))
  await hear('load figures list', { by: 'typed' })
  await hear('two four three six one', { by: 'typed' })
  await revise('final')
  await hear('two four nine one zero', { by: 'typed' })
  expect(seen.events()).toEqual(run.events())
  const { run: theirs, answered, revisions } = seen.store.getState()
  expect(theirs).toEqual(run.state())
  expect(answered).toEqual(store.getState().answered)
  expect(revisions).toEqual(store.getState().revisions)
  expect(seen.store.getState().ear.state).toBe(store.getState().ear.state)
})

it('an instructor who comes late, or again, has all of it once', async () => {
  const room = createFakeRoom()
  const { hear, run } = await trainee(room)
  await hear('load figures list', { by: 'typed' })
  const late = instructor(room)
  await vi.waitFor(() => expect(late.events()).toEqual(run.events()))
})

it('after a reload nothing is written twice, and an order that was followed is not followed again', async () => {
  const room = createFakeRoom()
  const first = await trainee(room)
  await first.hear('load figures list', { by: 'typed' })
  room.entries('orders', 'a').add('order/one', order('one'))
  await first.settled()
  expect(first.state().injected).toHaveLength(1)
  first.leave()
  first.run.close()
  const size = room.entries('log', 'a').all().size
  const again = await trainee(room, { events: first.run.events() })
  expect(room.entries('log', 'a').all().size).toBe(size)
  await again.run.resume()
  await again.settled()
  expect(again.state().injected).toHaveLength(1)
  expect(again.run.events().filter(({ type }) => type === 'injected')).toHaveLength(1)
  const seen = instructor(room)
  await vi.waitFor(() => expect(seen.events()).toEqual(again.run.events()))
})

it('an order of another run is not followed, and marks and grades are handed on', async () => {
  const room = createFakeRoom()
  const { hear, settled, state, marked } = await trainee(room)
  await hear('load figures list', { by: 'typed' })
  room.entries('orders', 'a').add('order/one', order('one', { runId: 'another' }))
  room.entries('orders', 'a').add('mark/m', JSON.stringify({ id: 'm', words: 'late' }))
  room.entries('orders', 'a').add('grade/g', JSON.stringify({ id: 'g', grade: 3 }))
  await settled()
  expect(state().injected).toBeUndefined()
  expect(marked).toHaveBeenLastCalledWith([{ id: 'm', words: 'late' }], [{ id: 'g', grade: 3 }])
})

it('the last event of the log says where the run is, so that the server can tell when an order is due', async () => {
  const room = createFakeRoom()
  const { hear, state } = await trainee(room)
  await hear('load figures list', { by: 'typed' })
  const { floor } = state()
  const all = room.entries('log', 'a').all()
  const last = JSON.parse(all.get(`run/${state().seq}`) ?? '')
  expect(floor).toMatchObject({ at: 'item' })
  expect(last.at).toEqual(floor.at === 'item' ? [floor.item, floor.list] : [])
})

it('what is no event ends the view with a reason, and what came before stands', async () => {
  const room = createFakeRoom()
  const { run } = await trainee(room)
  const count = run.events().length
  room
    .entries('log', 'a')
    .add(`run/${count}`, JSON.stringify({ event: { v: 1, seq: count, runId: 'run', type: 'ended' } }))
  const seen = instructor(room)
  await vi.waitFor(() => expect(seen.store.getState().blocked?.message).toMatch(/t is missing/))
  expect(seen.events()).toEqual(run.events())
})

it('whoever misses one item again and again is seen to first', async () => {
  const room = createFakeRoom()
  const { hear, store } = await trainee(room)
  await hear('load figures list', { by: 'typed' })
  const before = traineeView({ ...store.getState(), writer: 'here' })
  await hear('two four three six one', { by: 'typed' })
  await hear('two four three six two', { by: 'typed' })
  const after = traineeView({ ...store.getState(), writer: 'here' })
  expect(after).toMatchObject({ misses: 2, why: '2 misses at this item' })
  expect(after.need).toBeGreaterThan(before.need)
})
