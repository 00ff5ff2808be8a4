/** Serves a built app on localhost. A missing file is a 404, never the start page: the recogniser relies on it. */

import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import { extname } from 'node:path'
import { fileURLToPath } from 'node:url'
import sirv from 'sirv'
import { cacheControl, HEADERS } from './headers.ts'

export interface Served {
  /** `http://localhost:4173/`. */
  readonly address: string
  close(): Promise<void>
}

export interface ServeOptions {
  /** The next free one is taken where it is in use; 0 takes any. */
  readonly port: number
  /** Folder of the built app; `dist` where none is named. */
  readonly dir?: string
}

export const DIST = fileURLToPath(new URL('../../dist', import.meta.url))
/** Names under which this machine alone is meant: a page elsewhere cannot have its own name led here. */
const OWN_HOST = /^(localhost|127\.0\.0\.1|\[::1\])(:\d+)?$/

export type SendFiles = (request: IncomingMessage, response: ServerResponse, isOwnHost: boolean) => void

/** Sends the built app with its headers; `foreign` is what a request by another name is told. */
export function sendFiles(dir: string, foreign: string): SendFiles {
  const files = sirv(dir, {
    etag: true,
    brotli: true,
    extensions: ['html'],
    setHeaders(response, path) {
      response.setHeader('Cache-Control', cacheControl(path))
      // Most files of the model have no ending.
      if (extname(path) === '' && !path.endsWith('/')) response.setHeader('Content-Type', 'application/octet-stream')
    },
  })
  return (request, response, isOwnHost) => {
    for (const [name, value] of Object.entries(HEADERS)) response.setHeader(name, value)
    if (!isOwnHost) {
      response.writeHead(403).end(foreign)
      return
    }
    files(request, response, () => {
      response.writeHead(404).end()
    })
  }
}

export async function serve({ port, dir = DIST }: ServeOptions): Promise<Served> {
  const send = sendFiles(dir, 'Otherseat answers to localhost only.\n')
  const server = createServer((request, response) => send(request, response, OWN_HOST.test(request.headers.host ?? '')))
  const taken = await listen(server, port, 'localhost')
  return {
    address: `http://localhost:${taken}/`,
    close() {
      const closed = new Promise<void>((resolve, reject) =>
        server.close((error) => (error ? reject(error) : resolve())),
      )
      server.closeAllConnections()
      return closed
    },
  }
}

/** The port that it got. Throws what the system says where it is another reason than a port in use. */
export async function listen(server: Server, port: number, host: string): Promise<number> {
  for (let next = port; ; next++) {
    try {
      return await new Promise((resolve, reject) => {
        server.once('error', reject)
        server.listen(next, host, () => {
          server.off('error', reject)
          const address = server.address()
          resolve(typeof address === 'object' && address ? address.port : next)
        })
      })
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && error.code === 'EADDRINUSE') || next >= 65_535) throw error
    }
  }
}
