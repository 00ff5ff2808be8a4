/** Serves a built app on localhost. A missing file is a 404, never the start page: the recogniser relies on it. */

import { fileURLToPath } from 'node:url'
import { preview } from 'vite'

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

const CONFIG = fileURLToPath(new URL('../../vite.config.ts', import.meta.url))

export async function serve({ port, dir }: ServeOptions): Promise<Served> {
  const server = await preview({
    configFile: CONFIG,
    logLevel: 'warn',
    ...(dir !== undefined && { build: { outDir: dir } }),
    preview: { port, host: 'localhost', strictPort: false },
  })
  const address = server.resolvedUrls?.local[0]
  if (!address) throw new Error('the server has no address on this machine')
  return {
    address,
    async close() {
      const closed = server.close()
      if ('closeAllConnections' in server.httpServer) server.httpServer.closeAllConnections()
      await closed
    },
  }
}
