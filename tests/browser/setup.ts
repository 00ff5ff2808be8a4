/** Before all browser tests: the app is built once and served; the server ends with the tests. */

import type { TestProject } from 'vitest/node'
import { SITE, serveSite } from './site.ts'

declare module 'vitest' {
  interface ProvidedContext {
    /** Where the app is served, with a slash at the end. */
    address: string
    site: string
  }
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const served = await serveSite()
  project.provide('address', served.address)
  project.provide('site', SITE)
  return () => served.close()
}
