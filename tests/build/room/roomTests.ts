/**
 * A room as its server keeps it, whatever it stores in: orders are held and handed on, and nothing is lost when it is started
 * again.
 */

import { afterEach, beforeEach, expect, test } from 'vitest'
import { documentName } from '../../../src/room/documents.ts'
import type { Ticket } from '../../../src/room/http.ts'
import { until } from '../../browser/until.ts'
import type { TestRoom } from './room.ts'

export function testsOfARoom(make: () => Promise<TestRoom>): void {
  let room: TestRoom
  let trainee: Ticket
  let instructor: Ticket
  beforeEach(async () => {
    room = await make()
    trainee = await room.join('trainee')
    instructor = await room.join('instructor')
  })
  afterEach(() => room.close())

  const linked = async ({ token, room: id }: Ticket, kind: 'log' | 'desk' | 'orders', seat = trainee.seat) => {
    const one = room.link(token, documentName({ room: id, kind, ...(kind !== 'desk' && { seat }) }))
    await one.synced()
    return one
  }
  const event = (seq: number, at?: readonly string[]) =>
    JSON.stringify({ event: { v: 1, seq, runId: 'run', t: 0, wall: '', type: 'resumed' }, ...(at && { at }) })
  const order = (id: string, more: object = {}) =>
    JSON.stringify({ id, seat: trainee.seat, runId: 'run', by: 'Rook', given: '', what: { kind: 'cabin' }, ...more })
  const mark = (id: string) =>
    JSON.stringify({
      ...{ id, seat: trainee.seat, runId: 'run', by: 'Rook', given: '', words: 'late', seq: 3, t: 0, place: 'Flap' },
    })

  test('an order goes to the trainee when the log comes to its place, also with the instructor gone, and once', async () => {
    const log = await linked(trainee, 'log')
    const orders = await linked(trainee, 'orders')
    const desk = await linked(instructor, 'desk')
    desk.entries.set('order/now', order('now'))
    desk.entries.set('order/flap', order('flap', { at: 'flap' }))
    desk.entries.set('order/beacon', order('beacon', { at: 'beacon' }))
    desk.entries.set('withdrawn/beacon', JSON.stringify({ id: 'beacon' }))
    await desk.synced()
    await until(() => orders.entries.size === 1, 30_000)
    desk.close()
    log.entries.set('run/0', event(0, ['list', 'trim']))
    log.entries.set('run/1', event(1, ['list', 'beacon']))
    await log.synced()
    expect([...orders.entries.keys()]).toEqual(['order/now'])
    log.entries.set('run/2', event(2, ['list', 'flap']))
    log.entries.set('run/3', event(3, ['list', 'flap']))
    await until(() => orders.entries.size === 2, 30_000)
    expect([...orders.entries.keys()]).toEqual(['order/now', 'order/flap'])
  })

  const grade = (id: string) =>
    JSON.stringify({
      ...{ id, seat: trainee.seat, runId: 'run', by: 'Rook', given: '', competency: 'COM', name: 'Communication' },
      ...{ grade: 3, step: '', seen: [], notSeen: [], part: '' },
    })

  test('marks and grades reach the trainee only once they are shown', async () => {
    const orders = await linked(trainee, 'orders')
    const desk = await linked(instructor, 'desk')
    desk.entries.set('mark/m', mark('m'))
    desk.entries.set('grade/g', grade('g'))
    await desk.synced()
    desk.entries.set('order/o', order('o'))
    await until(() => orders.entries.size === 1, 30_000)
    expect([...orders.entries.keys()]).toEqual(['order/o'])
    desk.entries.set('shown/run', JSON.stringify({ seat: trainee.seat, runId: 'run' }))
    await until(() => orders.entries.has('mark/m') && orders.entries.has('grade/g'), 30_000)
    desk.entries.set('grade/later', grade('later'))
    await until(() => orders.entries.has('grade/later'), 30_000)
  })

  test('started again, it has the same code, tokens and documents, and what was written meanwhile comes in once', async () => {
    const log = await linked(trainee, 'log')
    log.entries.set('run/0', event(0))
    await log.synced()
    const { code } = room.server
    await room.restart()
    log.entries.set('run/1', event(1))
    expect(room.server.code).toBe(code)
    const watcher = await linked(instructor, 'log')
    await until(() => watcher.entries.size === 2, 60_000)
    expect(room.lines).toEqual([])
  })

  test('the instructor’s seat goes on to another device once the first is gone, and the old token is void', async () => {
    const second = await room.join('instructor')
    expect(second.token).not.toBe(instructor.token)
    room.link(instructor.token, documentName({ room: trainee.room, kind: 'desk' }))
    await until(() => room.lines.some((line) => line.includes('unknown token')), 30_000)
  })

  test('a room that is closed is gone with all that was in it', async () => {
    const log = await linked(trainee, 'log')
    expect((await room.post('/room/close', { token: instructor.token })).status).toBe(200)
    await until(() => log.isCut(), 30_000)
    await until(() => room.lines.some((line) => line.includes('unknown token')), 30_000)
    expect((await room.post('/room/join', { code: room.server.code, role: 'guest' })).status).toBe(404)
  })
}
