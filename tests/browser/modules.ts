/** Serves the modules of `src` one by one, so that an adapter can be tried in a real browser without the app. */

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
  const server = await createServer({
    configFile: CONFIG,
    logLevel: 'warn',
    server: { port: 0, host: 'localhost', hmr: false, watch: null },
    optimizeDeps: { noDiscovery: true },
    // Apart from that of `npm run dev`, which may be running.
    cacheDir: fileURLToPath(new URL('../../test-results/vite', import.meta.url)),
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
  return { address: `${address}empty`, close: () => server.close() }
}
