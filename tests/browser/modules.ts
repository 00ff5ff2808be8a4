/** Serves the modules of `src` one by one, so that an adapter can be tried in a real browser without the app. */

import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { createServer } from 'vite'
import type { Served } from '../../src/build/serve.ts'

const CONFIG = fileURLToPath(new URL('../../vite.config.ts', import.meta.url))

declare global {
  interface Window {
    /** Imports a module of `src` in the page. (An `import` in a test's own text becomes one of the test runner's.) */
    bring<Module>(path: `/${string}.ts`): Promise<Module>
  }
}

/** The address is that of an empty page. */
export async function serveModules(): Promise<Served> {
  const cacheDir = await mkdtemp(join(tmpdir(), 'otherseat-vite-'))
  const server = await createServer({
    configFile: CONFIG,
    logLevel: 'warn',
    server: { port: 0, host: 'localhost', hmr: false, watch: null },
    optimizeDeps: { noDiscovery: true },
    // Apart from that of `npm run dev` and of other tests, which may be running.
    cacheDir,
    plugins: [
      {
        name: 'an empty page',
        configureServer(dev) {
          dev.middlewares.use('/empty', (_request, response) => {
            response.setHeader('content-type', 'text/html')
            response.end(
              '<!doctype html><title>an empty page</title><link rel="icon" href="data:,"><script>bring = (path) => import(path)</script>',
            )
          })
        },
      },
    ],
  })
  await server.listen()
  const [address] = server.resolvedUrls?.local ?? []
  if (!address) throw new Error('the server has no address on this machine')
  return { address: `${address}empty`, close }

  async function close(): Promise<void> {
    await server.close()
    await rm(cacheDir, { recursive: true, force: true })
  }
}
