/** The app as it is served to people, built for tests and benchmarks. */

import { execSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { type Served, serve } from '../../src/build/serve.ts'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
/** Apart from `dist`, so that a running `npm start` is not disturbed. */
export const SITE = fileURLToPath(new URL('../../test-results/site', import.meta.url))

export function buildSite(): void {
  execSync(`npm run -s build -- --outDir "${SITE}" --emptyOutDir --logLevel warn`, {
    cwd: ROOT,
    // What a benchmark prints as data stays free of it.
    stdio: ['ignore', 'pipe', 'inherit'],
    // The test runner's own setting would build something else than what is served to people.
    env: { ...process.env, NODE_ENV: 'production' },
  })
}

export async function serveSite(): Promise<Served> {
  // Where several runs of tests go on side by side, it was built before them.
  if (!process.env.SITE_IS_BUILT) buildSite()
  return serve({ port: 0, dir: SITE })
}
