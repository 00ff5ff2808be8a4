/**
 * Benchmark of rooms: one server process, 200 rooms with a trainee and an instructor each, an event of each run every two
 * seconds, as in a brisk run. How long an event takes to the instructor, what the server needs, and whether any was lost.
 */

import { type ChildProcess, spawn } from 'node:child_process'
import { request } from 'node:http'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { HocuspocusProvider, HocuspocusProviderWebsocket } from '@hocuspocus/provider'
import WebSocket from 'ws'
import * as Y from 'yjs'
import { documentName, ENTRIES } from '../../src/room/documents.ts'
import { logKey } from '../../src/room/entries.ts'
import { JOIN_PATH, LINK_PATH, OPEN_PATH, type Ticket } from '../../src/room/http.ts'

const ROOMS = 200
const EVENTS = 12
const EVERY_MS = 2_000
/** For what is under way at the end. */
const PATIENCE_MS = 10_000
const MOST_MS = 250

interface Usage {
  readonly rss: number
  readonly cpuUs: number
  readonly refused: number
}

export async function measure(): Promise<Record<string, number>> {
  const server = spawn(
    process.execPath,
    ['--import', 'tsx', fileURLToPath(new URL('roomServer.ts', import.meta.url))],
    {
      stdio: ['pipe', 'pipe', 'inherit'],
    },
  )
  const lines = linesOf(server)
  const base = (await lines.next()).replace(/\/$/, '')
  const usage = async () => {
    server.stdin?.write('\n')
    return JSON.parse(await lines.next()) as Usage
  }
  const links: Linked[] = []
  const took: number[] = []
  try {
    for (let number = 0; number < ROOMS; number++) links.push(...(await roomOf(base, number, took)))
    await until(() => links.every(({ provider }) => provider.isSynced))
    const before = await usage()
    const begin = performance.now()
    for (let seq = 0; seq < EVENTS; seq++) {
      for (const { tell } of links) tell?.(seq)
      await pause(begin + (seq + 1) * EVERY_MS - performance.now())
    }
    await until(() => took.length === ROOMS * EVENTS)
    const seconds = (performance.now() - begin) / 1_000
    const after = await usage()
    const sorted = took.toSorted((one, other) => one - other)
    const at = (share: number) => sorted[Math.ceil(sorted.length * share) - 1] ?? Number.NaN
    return {
      'rooms.p50Ms': at(0.5),
      'rooms.p95Ms': at(0.95),
      'rooms.p95PerLimit': at(0.95) / MOST_MS,
      'rooms.lost': ROOMS * EVENTS - took.length,
      'rooms.refused': after.refused,
      'rooms.eventsPerS': took.length / seconds,
      'rooms.serverMB': after.rss / 1e6,
      'rooms.serverCores': (after.cpuUs - before.cpuUs) / 1e6 / seconds,
    }
  } finally {
    for (const { close } of links) close()
    server.stdin?.end()
  }
}

interface Linked {
  readonly provider: HocuspocusProvider
  readonly tell?: (seq: number) => void
  close(): void
}

/** Each room from a device of its own: the server counts by addresses. */
async function roomOf(base: string, number: number, took: number[]): Promise<readonly Linked[]> {
  const localAddress = `127.0.1.${number + 1}`
  const runId = `run-${number}`
  const trainee = await post(base, OPEN_PATH, { name: `Trainee ${number}` }, localAddress)
  const instructor = await post(base, JOIN_PATH, { code: trainee.code, role: 'instructor', name: '' }, localAddress)
  const name = documentName({ room: trainee.room, kind: 'log', seat: trainee.seat })
  const told = new Map<string, number>()
  const from = link(base, trainee.token, name, localAddress)
  const to = link(base, instructor.token, name, localAddress)
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
  return [{ ...from, tell }, to]
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
  const websocketProvider = new HocuspocusProviderWebsocket({ url, WebSocketPolyfill: OwnPage })
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
