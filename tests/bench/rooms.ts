/**
 * Benchmark of rooms: 200 of them with a trainee and an instructor each, an event of each run every two seconds, as in a brisk
 * run. How long an event takes to the instructor, what the server needs, and whether any was lost: by one process alone; then
 * by two with Redis and PostgreSQL, trainee and instructor of a room at different ones, one of which is killed in the middle.
 */

import { type ChildProcess, spawn } from 'node:child_process'
import { request } from 'node:http'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { HocuspocusProvider, HocuspocusProviderWebsocket } from '@hocuspocus/provider'
import WebSocket from 'ws'
import * as Y from 'yjs'
import type { RoomServerOptions } from '../../src/build/room/server.ts'
import { documentName, ENTRIES } from '../../src/room/documents.ts'
import { logKey } from '../../src/room/entries.ts'
import { JOIN_PATH, LINK_PATH, OPEN_PATH, type Ticket } from '../../src/room/http.ts'
import { startBalancer } from '../build/room/balancer.ts'
import { startDatabases } from '../build/room/databases.ts'

const ROOMS = 200
const EVENTS = 12
const EVERY_MS = 2_000
/** For what is under way at the end. */
const PATIENCE_MS = 20_000
const MOST_MS = 250
/** Between two tries to be linked again: as a page does. */
const TRIES = { delay: 500, minDelay: 500, maxDelay: 5_000 }

interface Usage {
  readonly rss: number
  readonly cpuUs: number
  readonly refused: number
}

export async function measure(): Promise<Record<string, number>> {
  const one = await startServer()
  const alone = await fly('rooms', { servers: [one], ways: [one.base] })
  const databases = await startDatabases().catch(({ message }: Error) => {
    process.stderr.write(`rooms over two processes: ${message}\n`)
  })
  if (!databases) return alone
  const { redis, postgres } = databases
  try {
    const two = [await startServer({ redis, postgres }), await startServer({ redis, postgres })] as const
    const [first, second] = two
    const to = [await startBalancer([first.base, second.base]), await startBalancer([second.base, first.base])]
    const ways = to.map(({ address }) => address)
    const together = await fly('roomsOfTwo', { servers: [second], ways, inTheMiddle: first.kill })
    for (const balancer of to) await balancer.close()
    return { ...alone, ...together }
  } finally {
    await databases.close()
  }
}

interface Flight {
  /** Those whose needs are measured; ended with it. */
  readonly servers: readonly Server[]
  /** Addresses by which pages come: a room's trainee by one, its instructor by the next. */
  readonly ways: readonly string[]
  readonly inTheMiddle?: () => void
}

async function fly(name: string, { servers, ways, inTheMiddle }: Flight): Promise<Record<string, number>> {
  const links: Linked[] = []
  const took: number[] = []
  const usage = async () => {
    const all = await Promise.all(servers.map((server) => server.usage()))
    const sum = (what: keyof Usage) => all.reduce((before, one) => before + one[what], 0)
    return { rss: sum('rss'), cpuUs: sum('cpuUs'), refused: sum('refused') }
  }
  try {
    for (let number = 0; number < ROOMS; number++) links.push(...(await roomOf(ways, number, took)))
    await until(() => links.every(({ provider }) => provider.isSynced))
    const before = await usage()
    const begin = performance.now()
    for (let seq = 0; seq < EVENTS; seq++) {
      for (const { tell } of links) tell?.(seq)
      if (seq === EVENTS / 2) setTimeout(() => inTheMiddle?.(), EVERY_MS / 2)
      await pause(begin + (seq + 1) * EVERY_MS - performance.now())
    }
    await until(() => took.length >= ROOMS * EVENTS)
    const seconds = (performance.now() - begin) / 1_000
    const after = await usage()
    const sorted = took.toSorted((one, other) => one - other)
    const at = (share: number) => sorted[Math.ceil(sorted.length * share) - 1] ?? Number.NaN
    const figures = {
      p50Ms: at(0.5),
      p95Ms: at(0.95),
      p95PerLimit: at(0.95) / MOST_MS,
      longestMs: at(1),
      // One that came twice would make up for one that did not come.
      lost: ROOMS * EVENTS - links.reduce((sum, { seen }) => sum + (seen?.() ?? 0), 0),
      doubled: took.length - links.reduce((sum, { seen }) => sum + (seen?.() ?? 0), 0),
      refused: after.refused,
      eventsPerS: took.length / seconds,
      serverMB: after.rss / 1e6,
      serverCores: (after.cpuUs - before.cpuUs) / 1e6 / seconds,
    }
    return Object.fromEntries(Object.entries(figures).map(([what, figure]) => [`${name}.${what}`, figure]))
  } finally {
    for (const { close } of links) close()
    for (const { end } of servers) end()
  }
}

interface Server {
  readonly base: string
  usage(): Promise<Usage>
  kill(): void
  end(): void
}

/** `storage` left out: a file of its own. */
async function startServer(storage?: RoomServerOptions['storage']): Promise<Server> {
  const file = fileURLToPath(new URL('roomServer.ts', import.meta.url))
  const server = spawn(process.execPath, ['--import', 'tsx', file, ...(storage ? [JSON.stringify(storage)] : [])], {
    stdio: ['pipe', 'pipe', 'inherit'],
  })
  const lines = linesOf(server)
  const base = (await lines.next()).replace(/\/$/, '')
  return {
    base,
    async usage() {
      server.stdin?.write('\n')
      return JSON.parse(await lines.next()) as Usage
    },
    kill: () => void server.kill('SIGKILL'),
    end: () => void server.stdin?.end(),
  }
}

interface Linked {
  readonly provider: HocuspocusProvider
  readonly tell?: (seq: number) => void
  /** How many events an instructor's page has. */
  readonly seen?: () => number
  close(): void
}

/** Each room from a device of its own: the server counts by addresses. */
async function roomOf(ways: readonly string[], number: number, took: number[]): Promise<readonly Linked[]> {
  const localAddress = `127.0.1.${number + 1}`
  const runId = `run-${number}`
  const [here = '', there = ''] = [ways[number % ways.length], ways[(number + 1) % ways.length]]
  const trainee = await post(here, OPEN_PATH, { name: `Trainee ${number}` }, localAddress)
  const instructor = await post(there, JOIN_PATH, { code: trainee.code, role: 'instructor', name: '' }, localAddress)
  const name = documentName({ room: trainee.room, kind: 'log', seat: trainee.seat })
  const told = new Map<string, number>()
  const from = link(here, trainee.token, name, localAddress)
  const to = link(there, instructor.token, name, localAddress)
  to.provider.document.getMap(ENTRIES).observe(({ keysChanged }) => {
    for (const key of keysChanged) took.push(performance.now() - (told.get(key) ?? Number.NaN))
  })
  // Spread over the time between two events, as runs are.
  const lag = (number / ROOMS) * EVERY_MS
  const tell = (seq: number) =>
    void setTimeout(() => {
      const key = logKey(runId, seq)
      told.set(key, performance.now())
      from.provider.document
        .getMap(ENTRIES)
        .set(key, JSON.stringify({ event: eventOf(runId, seq), at: ['trim', 'beforeTakeoff'] }))
    }, lag)
  return [
    { ...from, tell },
    { ...to, seen: () => to.provider.document.getMap(ENTRIES).size },
  ]
}

/** As long as an answer in a log is. */
const eventOf = (runId: string, seq: number) => ({
  ...{
    v: 1,
    seq,
    runId,
    t: seq * EVERY_MS,
    wall: new Date(0).toISOString(),
    type: 'answered',
    item: 'beforeTakeoff.trim',
  },
  evidence: { by: 'voice', text: 'five point two up set', beganAt: 0, endedAt: 1_000 },
  judgement: {
    verdict: 'correct',
    parts: [{ name: 'trim', kind: 'figure', state: 'ok', heard: 'five point two up', read: 5.2, expected: 5.2 }],
  },
  ...{ expected: { trim: 5.2 }, challengeRevision: 1, revision: 1 },
})

function link(base: string, token: string, name: string, localAddress: string): Linked {
  class OwnPage extends WebSocket {
    constructor(url: string) {
      super(url, { origin: base, localAddress })
      this.on('error', () => undefined)
    }
  }
  const url = `${base.replace('http', 'ws')}${LINK_PATH}`
  const websocketProvider = new HocuspocusProviderWebsocket({ url, WebSocketPolyfill: OwnPage, ...TRIES })
  const provider = new HocuspocusProvider({ name, document: new Y.Doc(), token, websocketProvider, awareness: null })
  provider.attach()
  return {
    provider,
    close() {
      provider.destroy()
      websocketProvider.destroy()
    },
  }
}

function post(base: string, path: string, body: object, localAddress: string): Promise<Ticket> {
  const text = JSON.stringify(body)
  const headers = { 'Content-Type': 'application/json', 'Content-Length': Buffer.byteLength(text), Origin: base }
  return new Promise((resolve, reject) => {
    const asked = request(`${base}${path}`, { method: 'POST', headers, localAddress, family: 4 }, (answer) => {
      let said = ''
      answer.on('data', (chunk) => {
        said += chunk
      })
      answer.on('end', () => (answer.statusCode === 200 ? resolve(JSON.parse(said)) : reject(new Error(said))))
    })
    asked.on('error', reject)
    asked.end(text)
  })
}

function linesOf({ stdout }: ChildProcess): { next(): Promise<string> } {
  if (!stdout) throw new Error('the server has no output')
  const lines = createInterface({ input: stdout })[Symbol.asyncIterator]()
  return { next: async () => String((await lines.next()).value) }
}

const pause = (ms: number) => new Promise((done) => setTimeout(done, Math.max(0, ms)))

async function until(isSo: () => boolean): Promise<void> {
  const end = performance.now() + PATIENCE_MS
  while (!isSo() && performance.now() < end) await pause(20)
}
