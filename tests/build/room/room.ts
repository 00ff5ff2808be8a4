/** A room's server for tests, and clients that do as a page does, or worse. */

import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { HocuspocusProvider, HocuspocusProviderWebsocket } from '@hocuspocus/provider'
import WebSocket from 'ws'
import * as Y from 'yjs'
import { type RoomServer, type RoomServerOptions, serveRoom } from '../../../src/build/room/server.ts'
import { ENTRIES } from '../../../src/room/documents.ts'
import type { Ticket } from '../../../src/room/http.ts'
import { until } from '../../browser/until.ts'

export interface TestRoom {
  readonly server: RoomServer
  readonly base: string
  /** Lines of the server's log. */
  readonly lines: string[]
  readonly clock: { now: number }
  post(path: string, body: unknown, headers?: Readonly<Record<string, string>>): Promise<Response>
  join(role: string, code?: string): Promise<Ticket>
  /** `at`: another address than its own. */
  link(token: string, name: string, at?: string): Linked
  /** A socket with nothing behind it. */
  socket(origin?: string): WebSocket
  restart(): Promise<void>
  close(): Promise<void>
}

export interface Linked {
  readonly document: Y.Doc
  readonly entries: Y.Map<string>
  readonly provider: HocuspocusProvider
  readonly synced: () => Promise<unknown>
  readonly isCut: () => boolean
  close(): void
}

export interface TestRoomParts {
  /** Left out: a file of its own. */
  readonly storage?: RoomServerOptions['storage']
  readonly clock?: { now: number }
}

export async function testRoom({ storage, clock = { now: 1_800_000_000_000 } }: TestRoomParts = {}): Promise<TestRoom> {
  const dir = await mkdtemp(join(tmpdir(), 'otherseat-room-'))
  await writeFile(join(dir, 'index.html'), '<title>start</title>')
  const lines: string[] = []
  const start = (port: number) =>
    serveRoom({
      port,
      dir,
      storage: storage ?? { file: join(dir, 'room.sqlite') },
      log: (line) => lines.push(line),
      now: () => clock.now,
    })
  let server = await start(0)
  const base = (server.addresses.at(-1) ?? '').replace(/\/$/, '')
  const links: Linked[] = []

  const post: TestRoom['post'] = (path, body, headers = { Origin: base }) =>
    fetch(`${base}${path}`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/json', ...headers },
      body: typeof body === 'string' ? body : JSON.stringify(body),
    })

  const socket: TestRoom['socket'] = (origin = base) => {
    const one = new WebSocket(`${base.replace('http', 'ws')}/room/link`, { origin })
    one.on('error', () => undefined)
    return one
  }

  return {
    base,
    lines,
    clock,
    post,
    socket,
    get server() {
      return server
    },
    async join(role, code = server.code) {
      const answer = await post('/room/join', { code, role, name: role })
      if (!answer.ok) throw new Error(`${answer.status} ${await answer.text()}`)
      return (await answer.json()) as Ticket
    },
    link(token, name, at = base) {
      class OwnPage extends WebSocket {
        constructor(url: string) {
          super(url, { origin: at })
          this.on('error', () => undefined)
        }
      }
      const document = new Y.Doc()
      let isCut = false
      const websocketProvider = new HocuspocusProviderWebsocket({
        url: `${at.replace('http', 'ws')}/room/link`,
        WebSocketPolyfill: OwnPage,
        ...{ delay: 20, minDelay: 20, maxDelay: 50 },
        onClose: () => {
          isCut = true
        },
      })
      const provider = new HocuspocusProvider({ name, document, token, websocketProvider, awareness: null })
      provider.attach()
      const linked: Linked = {
        document,
        provider,
        entries: document.getMap<string>(ENTRIES),
        synced: () => until(async () => provider.isSynced && !provider.hasUnsyncedChanges, 10_000),
        isCut: () => isCut,
        close() {
          provider.destroy()
          websocketProvider.destroy()
        },
      }
      links.push(linked)
      return linked
    },
    async restart() {
      const { port } = new URL(base)
      await server.close()
      server = await start(Number(port))
    },
    async close() {
      for (const one of links) one.close()
      await server.close()
      await rm(dir, { recursive: true })
    },
  }
}
