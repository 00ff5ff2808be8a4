/** Before all browser tests: the app is built once and served; the server ends with the tests. */

import { execSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import type { TestProject } from 'vitest/node'
import { serve } from '../../src/build/serve.ts'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
/** Apart from `dist`, so that a running `npm start` is not disturbed. */
const SITE = fileURLToPath(new URL('../../test-results/site', import.meta.url))

declare module 'vitest' {
  interface ProvidedContext {
    /** Where the app is served, with a slash at the end. */
    address: string
    site: string
  }
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  execSync(`npm run -s build -- --outDir "${SITE}" --emptyOutDir --logLevel warn`, {
    cwd: ROOT,
    stdio: 'inherit',
    // The test runner's own setting would build something else than what is served to people.
    env: { ...process.env, NODE_ENV: 'production' },
  })
  const served = await serve({ port: 0, dir: SITE })
  project.provide('address', served.address)
  project.provide('site', SITE)
  return () => served.close()
}
