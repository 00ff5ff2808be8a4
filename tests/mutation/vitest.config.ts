/**
 * The tests of a mutation run: an area's own and those that fly it, with few of the cases that are made up. What only other
 * tests or the many cases would notice counts as a survivor.
 */

import { defineConfig } from 'vitest/config'

const PATIENCE_MS = 120_000
const OWN_TESTS: Readonly<Record<string, readonly string[]>> = {
  run: ['tests/kernel/{run,interpret,hearing}/**/*.test.ts', 'tests/app/*.test.ts'],
  response: ['tests/kernel/{response,kinds}/**/*.test.ts', 'tests/outside/**/*.test.ts'],
  interpret: ['tests/kernel/interpret/**/*.test.ts', 'tests/kernel/run/talk/*.test.ts', 'tests/app/*.test.ts'],
  app: ['tests/app/**/*.test.ts'],
  utterance: ['tests/adapters/ear/utterance/*.test.ts'],
}
const area = process.env.MUTATION_AREA

export default defineConfig({
  test: {
    include: [...(area === undefined ? Object.values(OWN_TESTS).flat() : (OWN_TESTS[area] ?? []))],
    exclude: ['tests/kernel/run/talk/{parrot,dealtTalk}.test.ts', 'tests/app/crash.test.ts'],
    environment: 'node',
    setupFiles: ['tests/propertySeed.ts'],
    env: { CASES_SHARE: '0.1' },
    testTimeout: PATIENCE_MS,
    hookTimeout: PATIENCE_MS,
  },
})
