/**
 * A proxy that lets nothing through and notes what was asked of it. The browser is told to use it for
 * every host but this machine, so a request to another origin is seen whoever makes it: page, worker or
 * service worker.
 */

import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'

export interface Trap {
  readonly server: string
  /** Hosts that something tried to reach. */
  readonly caught: readonly string[]
  close(): Promise<void>
}

/** What Chromium asks of its maker on its own account, with an empty page as well; nothing a page would ask for. */
const BROWSERS_OWN = [
  'accounts.google.com',
  'android.clients.google.com',
  'clients2.google.com',
  'optimizationguide-pa.googleapis.com',
  'redirector.gvt1.com',
  'safebrowsing.googleapis.com',
  'update.googleapis.com',
]

export async function openTrap(): Promise<Trap> {
  const caught: string[] = []
  const note = (asked = '') => {
    if (!BROWSERS_OWN.some((host) => asked.startsWith(`${host}:`) || asked.includes(`://${host}/`))) caught.push(asked)
  }
  const server = createServer((request, response) => {
    note(request.url)
    response.writeHead(502).end()
  })
  server.on('connect', (request, socket) => {
    note(request.url)
    // A browser that has already turned away resets the connection.
    socket.on('error', () => socket.destroy())
    socket.end('HTTP/1.1 502 Bad Gateway\r\n\r\n')
  })
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening))
  const { port } = server.address() as AddressInfo
  return {
    server: `http://127.0.0.1:${port}`,
    caught,
    close: () =>
      new Promise((closed) => {
        server.close(() => closed())
        server.closeAllConnections()
      }),
  }
}
