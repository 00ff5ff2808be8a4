/** A room over several processes, with Redis and PostgreSQL: what holds for one holds for all of them, also when one is killed. */

import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Redis } from 'ioredis'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import * as Y from 'yjs'
import { documentName, ENTRIES } from '../../../src/room/documents.ts'
import type { Ticket } from '../../../src/room/http.ts'
import { startRoom } from '../../browser/roomProcess.ts'
import { until } from '../../browser/until.ts'
import { startBalancer } from './balancer.ts'
import { type OwnDatabases, startDatabases } from './databases.ts'
import { type Linked, type TestRoom, testRoom } from './room.ts'
import { testsOfARoom } from './roomTests.ts'

let databases: OwnDatabases
beforeAll(async () => {
  databases = await startDatabases()
})
afterAll(() => databases.close())

describe('one of several processes does as one alone:', () => {
  testsOfARoom(async () => testRoom({ storage: await databases.fresh() }))
})

type Kind = Parameters<typeof documentName>[0]['kind']
const nameOf = ({ room, seat }: Ticket, kind: Kind) =>
  documentName({ room, kind, ...((kind === 'log' || kind === 'orders') && { seat }) })
const event = (seq: number, at?: readonly string[], more: object = {}) =>
  JSON.stringify({ event: { v: 1, seq, runId: 'run', t: 0, wall: '', type: 'resumed', ...more }, ...(at && { at }) })
const order = ({ seat }: Ticket, id: string, more: object = {}) =>
  JSON.stringify({ id, seat, runId: 'run', by: 'Rook', given: '', what: { kind: 'cabin' }, ...more })

async function opened(at: TestRoom): Promise<Ticket> {
  const answer = await at.post('/room/open', { name: 'Wren' })
  expect(answer.status).toBe(200)
  return (await answer.json()) as Ticket
}

describe('two processes', () => {
  let storage: Awaited<ReturnType<OwnDatabases['fresh']>>
  let one: TestRoom
  let other: TestRoom
  let trainee: Ticket
  let instructor: Ticket
  beforeEach(async () => {
    storage = await databases.fresh()
    const clock = { now: 1_800_000_000_000 }
    one = await testRoom({ storage, clock })
    other = await testRoom({ storage, clock })
    trainee = await opened(one)
    instructor = await other.join('instructor', trainee.code)
  })
  afterEach(async () => {
    await one.close()
    await other.close()
  })

  const linked = async (at: TestRoom, { token }: Ticket, kind: Kind) => {
    const link = at.link(token, nameOf(trainee, kind))
    await link.synced()
    return link
  }

  test('a run flown at one is seen at the other, and orders come back, each once', async () => {
    const log = await linked(one, trainee, 'log')
    const orders = await linked(one, trainee, 'orders')
    const seen = await linked(other, instructor, 'log')
    const desk = await linked(other, instructor, 'desk')
    const changes: string[] = []
    orders.entries.observe(({ keysChanged }) => changes.push(...(keysChanged as Set<string>)))
    log.entries.set('run/0', event(0, ['list', 'trim']))
    await until(() => seen.entries.size === 1, 30_000)
    desk.entries.set('order/now', order(trainee, 'now'))
    desk.entries.set('order/flap', order(trainee, 'flap', { at: 'flap' }))
    desk.entries.set('order/beacon', order(trainee, 'beacon', { at: 'beacon' }))
    await until(() => orders.entries.has('order/now'), 30_000)
    log.entries.set('run/1', event(1, ['list', 'flap']))
    await until(() => orders.entries.has('order/flap'), 30_000)
    // Both processes hand on: what they add is one entry.
    const both = await linked(other, instructor, 'orders')
    await until(() => both.entries.size === 2, 30_000)
    expect(changes.toSorted()).toEqual(['order/flap', 'order/now'])
    expect(Y.encodeStateVector(both.document)).toEqual(Y.encodeStateVector(orders.document))
  })

  test('a seat taken at one stands in the list at the other, and who leaves at one is cut off at both', async () => {
    const seats = await linked(other, instructor, 'seats')
    const second = await one.join('trainee', trainee.code)
    await until(() => seats.entries.has(second.seat), 30_000)
    const log = other.link(second.token, nameOf(second, 'log'))
    await log.synced()
    await one.post('/room/leave', { token: second.token })
    await until(() => log.isCut(), 30_000)
  })

  test('the instructor’s seat, linked at one, is taken at the other until that link is gone', async () => {
    const desk = await linked(other, instructor, 'desk')
    const ask = () => one.post('/room/join', { code: trainee.code, role: 'instructor' })
    expect((await ask()).status).toBe(409)
    desk.close()
    await until(async () => (await ask()).status === 200, 30_000)
  })

  test('closed at one, the room ends at the other, with all that was stored', async () => {
    const log = await linked(one, trainee, 'log')
    log.entries.set('run/0', event(0))
    await log.synced()
    expect((await other.post('/room/close', { token: instructor.token })).status).toBe(200)
    await until(() => log.isCut(), 30_000)
    await until(() => one.lines.some((line) => line.includes('unknown token')), 30_000)
    expect((await one.post('/room/join', { code: trainee.code, role: 'guest' })).status).toBe(404)
  })

  test('wrong codes are counted together', async () => {
    const statuses: number[] = []
    for (let at = 0; at < 12; at++)
      statuses.push((await (at % 2 ? one : other).post('/room/join', { code: 'CCCCCC', role: 'guest' })).status)
    expect(statuses.filter((status) => status === 404).length).toBe(10)
    expect((await one.post('/room/join', { code: trainee.code, role: 'guest' })).status).toBe(429)
    one.clock.now += 600_000
    expect((await one.post('/room/join', { code: trainee.code, role: 'guest' })).status).toBe(200)
  })

  test('of two pages that write at the same place at the same time, one is taken and the other cut off', async () => {
    const pages = await Promise.all([linked(one, trainee, 'log'), linked(other, trainee, 'log')])
    for (const [at, { entries }] of pages.entries()) entries.set('run/0', event(0, undefined, { t: at }))
    await until(() => pages.some((page) => page.isCut()), 30_000)
    const lines = () => [...one.lines, ...other.lines]
    await until(() => lines().some((line) => line.includes('written over')), 30_000)
    const [seen, alike] = await Promise.all([linked(one, instructor, 'log'), linked(other, instructor, 'log')])
    await until(() => seen.entries.size === 1 && alike.entries.size === 1, 30_000)
    expect(seen.entries.get('run/0')).toBe(alike.entries.get('run/0'))
  })

  test('what comes over Redis is looked at as what a client sends', async () => {
    const log = await linked(one, trainee, 'log')
    const orders = await linked(one, trainee, 'orders')
    log.entries.set('run/0', event(0))
    await log.synced()
    const redis = new Redis(storage.redis)
    const forged = async (kind: Kind, change: (entries: Y.Map<unknown>) => void, type = 1) => {
      const document = new Y.Doc()
      if (kind === 'log') Y.applyUpdate(document, Y.encodeStateAsUpdate(log.document))
      const before = Y.encodeStateVector(document)
      change(document.getMap(ENTRIES))
      const update = Y.encodeStateAsUpdate(document, before)
      const message = Buffer.concat([Buffer.alloc(16, 7), Uint8Array.of(type), update])
      const count = one.lines.length
      await redis.publish(`otherseat:document:${nameOf(trainee, kind)}`, message)
      await until(() => one.lines.length > count, 30_000)
      return one.lines.slice(count).join()
    }
    expect(await forged('log', (entries) => entries.delete('run/0'))).toContain('deleted')
    expect(await forged('log', (entries) => entries.set('run/0', event(0, undefined, { t: 9 })))).toMatch(
      /over|deleted/,
    )
    expect(await forged('log', (entries) => entries.set('run/1', event(1, undefined, { type: 'hacked' })))).toContain(
      'no event',
    )
    expect(await forged('orders', (entries) => entries.set('order/o', '{}'))).toContain('order.id is missing')
    expect(await forged('log', () => undefined, 9)).toContain('type 9')
    expect([log.entries.size, log.entries.get('run/0'), orders.entries.size]).toEqual([1, event(0), 0])
    redis.disconnect()
  })
})

test('a process killed in the middle of a run: the page goes on at the other, nothing is lost and nothing doubled', async () => {
  const storage = await databases.fresh()
  const site = await mkdtemp(join(tmpdir(), 'otherseat-site-'))
  await writeFile(join(site, 'index.html'), '<title>start</title>')
  const options = ['--redis', storage.redis, '--postgres', storage.postgres]
  const [first, second] = await Promise.all([startRoom(site, options), startRoom(site, options)])
  expect(first.code()).toBe(second.code())
  // A page by the balancer, which prefers the first; and the instructor's at the second.
  const balancer = await startBalancer([first.address, second.address])
  const third = await testRoom({ storage, clock: { now: Date.now() } })
  try {
    const trainee = await opened(third)
    const instructor = await third.join('instructor', trainee.code)
    const at = (address: string) => address.replace(/\/$/, '')
    const pages: Linked[] = [
      third.link(trainee.token, nameOf(trainee, 'log'), balancer.address),
      third.link(trainee.token, nameOf(trainee, 'orders'), balancer.address),
      third.link(instructor.token, nameOf(trainee, 'log'), at(second.address)),
      third.link(instructor.token, nameOf(trainee, 'desk'), at(second.address)),
    ]
    await Promise.all(pages.map((page) => page.synced()))
    const [log, orders, seen, desk] = pages as [Linked, Linked, Linked, Linked]
    const told: string[] = []
    for (const { entries } of [seen, orders])
      entries.observe(({ keysChanged }) => told.push(...(keysChanged as Set<string>)))
    const places = (seq: number) => ['list', `item${seq}`]
    for (const seq of [10, 39, 41, 75])
      desk.entries.set(`order/o${seq}`, order(trainee, `o${seq}`, { at: `item${seq}` }))
    for (let seq = 0; seq < 80; seq++) {
      log.entries.set(`run/${seq}`, event(seq, places(seq)))
      if (seq === 40) await first.kill()
      if (seq === 60) await first.start()
      await new Promise((done) => setTimeout(done, 15))
    }
    await until(() => seen.entries.size === 80 && orders.entries.size >= 2, 60_000)
    await until(async () => !log.provider.hasUnsyncedChanges, 60_000)
    // All three agree, and so does one that begins with what is stored.
    const again = third.link(instructor.token, nameOf(trainee, 'log'), at(first.address))
    await again.synced()
    await until(() => again.entries.size === 80, 30_000)
    for (const { entries } of [seen, again]) expect(entries.toJSON()).toEqual(log.entries.toJSON())
    expect(new Set(told).size).toBe(told.length)
    expect(orders.entries.has('order/o10') && orders.entries.has('order/o75')).toBe(true)
  } finally {
    await third.close()
    await balancer.close()
    await Promise.all([first.close(), second.close()])
    await rm(site, { recursive: true })
  }
})

test('what a process missed while its link to Redis was broken comes by itself once it is back', async () => {
  const storage = await databases.fresh()
  const [one, other] = [await testRoom({ storage }), await testRoom({ storage })]
  const redis = new Redis(storage.redis)
  try {
    const trainee = await opened(one)
    const guest = await other.join('guest', trainee.code)
    const log = one.link(trainee.token, nameOf(trainee, 'log'))
    const seen = other.link(guest.token, nameOf(trainee, 'log'))
    await Promise.all([log, seen].map((link) => link.synced()))
    await redis.call('CLIENT', 'KILL', 'TYPE', 'pubsub')
    log.entries.set('run/0', event(0))
    await until(() => seen.entries.size === 1, 30_000)
    // Both connections of each process.
    await redis.call('CLIENT', 'KILL', 'SKIPME', 'yes', 'TYPE', 'pubsub')
    await redis.call('CLIENT', 'KILL', 'SKIPME', 'yes', 'TYPE', 'normal')
    log.entries.set('run/1', event(1))
    await until(() => seen.entries.size === 2, 60_000)
    expect(seen.entries.toJSON()).toEqual(log.entries.toJSON())
  } finally {
    redis.disconnect()
    await one.close()
    await other.close()
  }
})

test('with PostgreSQL away the room goes on, whoever comes tries again, and what was written meanwhile is kept', async () => {
  const storage = await databases.fresh()
  const name = new URL(storage.postgres).pathname.slice(1)
  const one = await testRoom({ storage })
  try {
    const trainee = await opened(one)
    const guest = await one.join('guest', trainee.code)
    const log = one.link(trainee.token, nameOf(trainee, 'log'))
    const seen = one.link(guest.token, nameOf(trainee, 'log'))
    await Promise.all([log, seen].map((link) => link.synced()))
    await databases.query(`ALTER DATABASE ${name} ALLOW_CONNECTIONS false`)
    await databases.query(`SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = '${name}'`)
    log.entries.set('run/0', event(0))
    await until(() => seen.entries.size === 1, 30_000)
    const late = one.link(guest.token, nameOf(trainee, 'seats'))
    let isDenied = false
    late.provider.on('authenticationFailed', () => {
      isDenied = true
    })
    await until(() => late.isCut() && one.lines.some((line) => line.includes('a document was not kept')), 60_000)
    await databases.query(`ALTER DATABASE ${name} ALLOW_CONNECTIONS true`)
    await late.synced()
    expect(isDenied).toBe(false)
    // By one that begins with what is stored.
    for (const link of [log, seen, late]) link.close()
    await one.restart()
    const again = one.link(guest.token, nameOf(trainee, 'log'))
    await until(() => again.entries.size === 1, 60_000)
  } finally {
    await one.close()
  }
})
