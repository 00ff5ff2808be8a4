/** What a hostile client may try, and that the room goes on: each row is refused with one line in the log, and harms nobody. */

import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type WebSocket from 'ws'
import * as Y from 'yjs'
import { documentName, ENTRIES } from '../../../src/room/documents.ts'
import type { Ticket } from '../../../src/room/http.ts'
import { until } from '../../browser/until.ts'
import { type Linked, type TestRoom, testRoom } from './room.ts'

let room: TestRoom
let trainee: Ticket
let other: Ticket
let instructor: Ticket
let guest: Ticket
let log: Linked
beforeAll(async () => {
  room = await testRoom()
  trainee = await room.join('trainee')
  other = await room.join('trainee')
  instructor = await room.join('instructor')
  guest = await room.join('guest')
  log = room.link(trainee.token, nameOf('log'))
  await log.synced()
})
afterAll(() => room.close())

type Kind = Parameters<typeof documentName>[0]['kind']
const nameOf = (kind: Kind, seat = trainee.seat) =>
  documentName({ room: trainee.room, kind, ...((kind === 'log' || kind === 'orders') && { seat }) })

let seq = 0
const event = (number: number, more: object = {}) =>
  JSON.stringify({
    event: { v: 1, seq: number, runId: 'run', t: 0, wall: '2026-01-01T00:00:00Z', type: 'resumed', ...more },
  })

/** The lines that came while something was done, once there is one. */
async function refused(what: () => unknown): Promise<string[]> {
  const before = room.lines.length
  await what()
  await until(() => room.lines.length > before, 10_000)
  return room.lines.slice(before)
}

/** The room is as it was: the trainee writes on, and it is kept. */
async function goesOn(): Promise<void> {
  const key = `run/${++seq}`
  log.entries.set(key, event(seq))
  await log.synced()
  expect(log.isCut()).toBe(false)
}

// Of lib0, by which messages are made: numbers in sevens of bits, texts and bytes with their length before them.
const number = (value: number): number[] =>
  value < 128 ? [value] : [128 | (value & 127), ...number(Math.floor(value / 128))]
const bytes = (value: Uint8Array) => [...number(value.length), ...value]
const text = (value: string) => bytes(new TextEncoder().encode(value))
const message = (name: string, rest: readonly number[]) => Uint8Array.from([...text(name), ...rest])

async function opened(token?: string, name = nameOf('log')): Promise<WebSocket> {
  const socket = room.socket()
  await new Promise((done) => socket.once('open', done))
  if (token !== undefined) {
    socket.send(message(name, [2, 0, ...text(token)]))
    await new Promise((done) => socket.once('message', done))
  }
  return socket
}

const sentBy = async (ticket: Ticket, name: string, rest: readonly number[]) =>
  (await opened(ticket.token, name)).send(message(name, rest))

describe('by web socket', () => {
  /** A change of a document of one's own, as the update that it makes. */
  const update = (change: (entries: Y.Map<unknown>, document: Y.Doc) => void) => {
    const document = new Y.Doc()
    change(document.getMap(ENTRIES), document)
    return [0, 2, ...bytes(Y.encodeStateAsUpdate(document))]
  }
  const set = (key: string, value: unknown) => update((entries) => entries.set(key, value))
  const mark = (more: object = {}) =>
    JSON.stringify({
      id: 'm',
      seat: 's',
      runId: 'run',
      by: 'i',
      given: '',
      words: '',
      seq: 0,
      t: 0,
      place: '',
      ...more,
    })

  const GRADE = { competency: 'COM', name: 'Communication', grade: 3, step: '', seen: [], notSeen: [], part: '' }

  it.each<readonly [what: string, told: RegExp, attack: () => unknown]>([
    ['a page of another origin', /a page of http:\/\/evil\.example/, () => room.socket('http://evil.example')],
    ['text in place of bytes', /no binary/, async () => (await opened()).send('hello')],
    ['bytes without sense', /cannot be read/, async () => (await opened()).send(Uint8Array.from([255, 255, 255]))],
    [
      'a name that every object has',
      /unknown document/,
      async () => (await opened()).send(message('__proto__', [2, 0, ...text('x')])),
    ],
    [
      'an unknown token',
      /unknown token/,
      async () => (await opened()).send(message(nameOf('log'), [2, 0, ...text('guess')])),
    ],
    [
      'much before a token',
      /before a token/,
      async () => {
        const socket = await opened()
        for (let at = 0; at < 100; at++) socket.send(message(nameOf('log'), [0, 0, 0]))
      },
    ],
    [
      'a flood',
      /too many messages/,
      async () => {
        const socket = await opened(guest.token, nameOf('seats'))
        for (let at = 0; at < 2_000; at++) socket.send(message(nameOf('seats'), [0, 0, 1, 0]))
      },
    ],
    [
      'an oversize message',
      /Max payload size exceeded|too much at once/,
      async () => (await opened(trainee.token)).send(new Uint8Array(25_000_000)),
    ],
    ['words for all, past the documents', /type 6/, () => sentBy(guest, nameOf('log'), [6, ...text('hello all')])],
    [
      'a guest who writes the log',
      /guest: writes to the log/,
      () => sentBy(guest, nameOf('log'), set('run/900', event(900))),
    ],
    [
      'an instructor who writes the log',
      /instructor: writes to the log/,
      () => sentBy(instructor, nameOf('log'), set('run/900', event(900))),
    ],
    [
      'a trainee who reads the desk',
      /trainee asked for desk/,
      async () => (await opened()).send(message(nameOf('desk'), [2, 0, ...text(trainee.token)])),
    ],
    [
      'a guest who reads the desk',
      /guest asked for desk/,
      async () => (await opened()).send(message(nameOf('desk'), [2, 0, ...text(guest.token)])),
    ],
    [
      'a trainee who reads another’s log',
      /trainee asked for log/,
      async () => (await opened()).send(message(nameOf('log'), [2, 0, ...text(other.token)])),
    ],
    [
      'a trainee who gives itself an order',
      /trainee: writes to the orders/,
      () => sentBy(trainee, nameOf('orders'), set('order/x', '{}')),
    ],
    [
      'a document of another room',
      /asked for/,
      async () => (await opened()).send(message('elsewhere/desk', [2, 0, ...text(instructor.token)])),
    ],
    [
      'an update that cannot be read',
      /cannot be read/,
      () => sentBy(trainee, nameOf('log'), [0, 2, ...bytes(Uint8Array.from([1, 255, 255, 255]))]),
    ],
    [
      'an event that is none',
      /no event/,
      () => sentBy(trainee, nameOf('log'), set('run/901', event(901, { type: 'hacked' }))),
    ],
    ['an event at another key', /another key/, () => sentBy(trainee, nameOf('log'), set('run/902', event(903)))],
    ['an event twice', /written over/, () => sentBy(trainee, nameOf('log'), set('run/0', event(0, { t: 5 })))],
    [
      'an entry taken out',
      /deleted/,
      () =>
        sentBy(
          trainee,
          nameOf('log'),
          update((entries) => {
            entries.set('run/904', event(904))
            entries.delete('run/904')
          }),
        ),
    ],
    ['what is no text', /no text/, () => sentBy(trainee, nameOf('log'), set('run/905', 5))],
    [
      'another map',
      /no entry/,
      () =>
        sentBy(
          trainee,
          nameOf('log'),
          update((_, document) => document.getMap('other').set('a', 'b')),
        ),
    ],
    ['a list in a map', /no text/, () => sentBy(trainee, nameOf('log'), set('run/906', new Y.Array()))],
    [
      'an update with a gap',
      /gap/,
      async () => {
        const document = new Y.Doc()
        document.getMap(ENTRIES).set('run/907', event(907))
        const before = Y.encodeStateVector(document)
        document.getMap(ENTRIES).set('run/908', event(908))
        const socket = await opened(trainee.token)
        // It has answered what was missing here: nothing.
        socket.send(message(nameOf('log'), [0, 1, ...bytes(Y.encodeStateAsUpdate(new Y.Doc()))]))
        socket.send(message(nameOf('log'), [0, 2, ...bytes(Y.encodeStateAsUpdate(document, before))]))
      },
    ],
    [
      'an entry too long',
      /too long/,
      () => sentBy(trainee, nameOf('log'), set('run/909', event(909, { message: 'x'.repeat(2_000_000) }))),
    ],
    [
      'an order without a seat',
      /order\.seat is missing/,
      () => sentBy(instructor, nameOf('desk'), set('order/o', '{"id":"o"}')),
    ],
    ['a mark of a foreign kind', /unknown key/, () => sentBy(instructor, nameOf('desk'), set('other/m', mark()))],
    [
      'a grade beyond five',
      /grade\.grade is 6/,
      () => sentBy(instructor, nameOf('desk'), set('grade/m', mark({ ...GRADE, grade: 6 }))),
    ],
    [
      'a grade whose behaviours are no list',
      /grade\.seen is "all"/,
      () => sentBy(instructor, nameOf('desk'), set('grade/m', mark({ ...GRADE, seen: 'all' }))),
    ],
    ['a mark at another key', /another key/, () => sentBy(instructor, nameOf('desk'), set('mark/n', mark()))],
  ])('%s', async (_, told, attack) => {
    const size = log.entries.size
    if (seq === 0) log.entries.set('run/0', event(0))
    const lines = await refused(attack)
    expect(lines).toEqual([expect.stringMatching(told)])
    expect(lines[0]).toMatch(/^refused 127\.0\.0\.1: [^\n]+$/)
    await goesOn()
    expect(log.entries.size).toBe(size + (seq === 1 ? 2 : 1))
  })

  it('what a page writes before it was asked for what was missing is taken with its answer', async () => {
    const document = new Y.Doc()
    document.getMap(ENTRIES).set('run/910', event(910))
    const before = Y.encodeStateVector(document)
    document.getMap(ENTRIES).set('run/911', event(911))
    const socket = await opened(trainee.token)
    socket.send(message(nameOf('log'), [0, 2, ...bytes(Y.encodeStateAsUpdate(document, before))]))
    socket.send(message(nameOf('log'), [0, 1, ...bytes(Y.encodeStateAsUpdate(document))]))
    await until(() => log.entries.has('run/910') && log.entries.has('run/911'), 5_000)
    await goesOn()
    expect(socket.readyState).toBe(socket.OPEN)
    socket.close()
  })

  it('what a trainee’s page tells of its ear reaches others, and nobody tells it for another', async () => {
    const watcher = room.link(guest.token, nameOf('log'))
    await watcher.synced()
    const socket = await opened(trainee.token)
    const ear = (client: number, state: string) => bytes(Uint8Array.from([1, ...number(client), 1, ...text(state)]))
    const seen = new Promise<string>((done) =>
      watcher.provider.configuration.websocketProvider.on('message', ({ data }: { data: ArrayBuffer }) => {
        const words = new TextDecoder().decode(data)
        if (words.includes('"ear"')) done(words)
      }),
    )
    socket.send(message(nameOf('log'), [1, ...ear(7, '{"ear":"open"}')]))
    socket.send(message(nameOf('log'), [1, ...ear(8, '{"ear":"forged"}')]))
    expect(await seen).toContain('open')
    await goesOn()
    expect(await seen).not.toContain('forged')
    socket.close()
    watcher.close()
  })
})

describe('by HTTP', () => {
  it.each<readonly [what: string, status: number, ask: () => Promise<Response>]>([
    [
      'a foreign origin',
      403,
      () => room.post('/room/join', { code: room.server.code, role: 'guest' }, { Origin: 'http://evil.example' }),
    ],
    ['no origin', 403, () => room.post('/room/join', { code: room.server.code, role: 'guest' }, {})],
    ['a role that there is not', 400, () => room.post('/room/join', { code: room.server.code, role: 'owner' })],
    ['no JSON', 400, () => room.post('/room/join', '{')],
    ['an oversize body', 400, () => room.post('/room/join', { code: 'x'.repeat(5_000) })],
    ['a code that no room has', 404, () => room.post('/room/join', { code: 'AAAAAA', role: 'guest' })],
    [
      'the instructor’s seat, taken',
      409,
      async () => {
        const desk = room.link(instructor.token, nameOf('desk'))
        await desk.synced()
        return room.post('/room/join', { code: room.server.code, role: 'instructor' })
      },
    ],
    ['closing the room of a class', 403, () => room.post('/room/close', { token: trainee.token })],
    ['another method', 404, () => fetch(`${room.base}/room/join`)],
  ])('%s', async (_, status, ask) => {
    let answer: Response | undefined
    const lines = await refused(async () => {
      answer = await ask()
    })
    expect(answer?.status).toBe(status)
    expect(await answer?.json()).toEqual({ why: expect.stringMatching(/\.$/) })
    expect(lines).toHaveLength(1)
    await goesOn()
  })

  it('codes cannot be tried out: after ten wrong ones a right one is refused as well, until time has passed', async () => {
    const join = (code: string) => room.post('/room/join', { code, role: 'guest' })
    const statuses: number[] = []
    for (let at = 0; at < 12; at++) statuses.push((await join('CCCCCC')).status)
    expect(statuses.at(-1)).toBe(429)
    expect((await join(room.server.code)).status).toBe(429)
    room.clock.now += 600_000
    expect((await join(room.server.code)).status).toBe(200)
  })
})

describe('time', () => {
  it('a code admits nobody after four hours, and a token is good until the room is deleted', async () => {
    room.clock.now += 4 * 3_600_000
    const { status } = await room.post('/room/join', { code: room.server.code, role: 'guest' })
    expect(status).toBe(404)
    const seats = room.link(guest.token, nameOf('seats'))
    await seats.synced()
    expect(JSON.parse(seats.entries.get(trainee.seat) ?? '')).toMatchObject({ name: 'trainee' })
    room.clock.now += 20 * 3_600_000
    expect((await refused(() => room.link(guest.token, nameOf('seats')))).join()).toContain('unknown token')
  })
})
