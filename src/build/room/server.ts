/** One process for a room: the built app as `serve.ts` sends it, the few answers of `api.ts`, and the link, on one port. */

import { readFileSync } from 'node:fs'
import { createServer, type IncomingMessage, type Server } from 'node:http'
import { createServer as createTlsServer } from 'node:https'
import { networkInterfaces } from 'node:os'
import type { Duplex } from 'node:stream'
import { WebSocketServer } from 'ws'
import { LINK_PATH } from '../../room/http.ts'
import { listen, sendFiles } from '../serve.ts'
import { createApi } from './api.ts'
import { openDatabase } from './database.ts'
import { createLink } from './link.ts'
import { createRooms } from './rooms.ts'

export interface RoomServerOptions {
  readonly port: number
  /** Folder of the built app. */
  readonly dir: string
  /** Of all that is stored. */
  readonly file: string
  /** One line for each refusal. */
  readonly log: (line: string) => void
  readonly now?: () => number
  /** Names by which it is reached besides those of this machine: behind a server that ends TLS, say. */
  readonly names?: readonly string[]
  /** Files in PEM. */
  readonly tls?: { readonly cert: string; readonly key: string }
}

export interface RoomServer {
  /** On this machine, and in the local network. */
  readonly addresses: readonly string[]
  readonly code: string
  close(): Promise<void>
}

/** Bytes of one message. */
const LARGEST_MESSAGE = 24_000_000
const MOST_SOCKETS = 1_000
const MOST_SOCKETS_OF_ONE = 40
const SWEEP_MS = 60_000

export async function serveRoom(options: RoomServerOptions): Promise<RoomServer> {
  const { dir, file, log, now = Date.now, names = [], tls } = options
  const database = openDatabase(file)
  const scheme = tls ? 'https' : 'http'
  const hosts = () => ['localhost', '127.0.0.1', '[::1]', ...localAddresses(), ...names]
  let port = 0
  const addressOf = (host: string) => `${scheme}://${host}:${port}/`
  const addresses = () => [
    ...localAddresses().map(addressOf),
    ...names.map((name) => `https://${name}/`),
    addressOf('localhost'),
  ]

  const link = createLink({ database, now, log, memberBy: (token) => rooms.memberBy(token) })
  const rooms = createRooms({ database, now, isLinked: link.isLinked, changed: (room) => link.seatsChanged(room) })
  const isOwnHost = ({ headers: { host = '' } }: IncomingMessage) => hosts().includes(host.replace(/:\d+$/, ''))
  /** A page elsewhere sends its own origin; what is no browser has none. */
  const isOwnPage = (request: IncomingMessage) => {
    const { origin, host } = request.headers
    return isOwnHost(request) && (origin === `http://${host}` || origin === `https://${host}`)
  }
  const api = createApi({ rooms, now, addresses, isOwnPage, closed: link.cutOff, log })
  const files = sendFiles(dir, 'This name is none of this server: start it with --name to use it.\n')

  const handle: Parameters<typeof createServer>[1] = (request, response) => {
    const path = (request.url ?? '').replace(/\?.*$/, '')
    const isHere = isOwnHost(request)
    if (!isHere)
      log(`refused ${addressIn(request)}: the name ${JSON.stringify(request.headers.host ?? '').slice(0, 80)}`)
    else if (api.handle(path, request, response, addressIn(request))) return
    files(request, response, isHere)
  }
  const limits = { headersTimeout: 15_000, requestTimeout: 30_000 }
  const server: Server = tls
    ? createTlsServer({ ...limits, cert: readFileSync(tls.cert), key: readFileSync(tls.key) }, handle)
    : createServer(limits, handle)

  const sockets = new WebSocketServer({ noServer: true, maxPayload: LARGEST_MESSAGE, perMessageDeflate: false })
  server.on('upgrade', (request: IncomingMessage, socket: Duplex, head: Buffer) => {
    const address = addressIn(request)
    socket.on('error', () => socket.destroy())
    const of = [...sockets.clients].filter((one) => addressOfSocket.get(one) === address).length
    const why = !isOwnPage(request)
      ? `a page of ${String(request.headers.origin ?? 'no origin').slice(0, 80)}`
      : request.url?.replace(/\?.*$/, '') !== LINK_PATH
        ? 'a link to another path'
        : sockets.clients.size >= MOST_SOCKETS || of >= MOST_SOCKETS_OF_ONE
          ? 'too many links'
          : undefined
    if (why !== undefined) {
      log(`refused ${address}: ${why}`)
      socket.end('HTTP/1.1 403 Forbidden\r\nConnection: close\r\n\r\n')
      return
    }
    sockets.handleUpgrade(request, socket, head, (ws) => {
      addressOfSocket.set(ws, address)
      link.connect(ws, request, address)
    })
  })
  server.on('clientError', (_, socket) => socket.destroy())

  port = await listen(server, options.port, '0.0.0.0')
  const sweep = setInterval(() => rooms.expire().forEach(link.cutOff), SWEEP_MS)
  sweep.unref()
  for (const room of rooms.expire()) link.cutOff(room)
  const { code } = rooms.own()

  return {
    addresses: addresses(),
    code,
    async close() {
      clearInterval(sweep)
      await link.close()
      for (const one of sockets.clients) one.terminate()
      const closed = new Promise<void>((resolve) => server.close(() => resolve()))
      server.closeAllConnections()
      await closed
      database.close()
    },
  }
}

const addressOfSocket = new WeakMap<object, string>()

const addressIn = ({ socket }: IncomingMessage): string => (socket.remoteAddress ?? 'unknown').replace(/^::ffff:/, '')

/** IPv4 in the local network, as people type it. */
function localAddresses(): string[] {
  return Object.values(networkInterfaces())
    .flat()
    .flatMap((one) => (one && one.family === 'IPv4' && !one.internal ? [one.address] : []))
}
