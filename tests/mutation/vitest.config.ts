/**
 * The tests a mutation run may use: those in Node that need no recogniser and no browser, and that take seconds. The
 * large generated corpora and the long flights are left out; what only they would notice counts as a survivor.
 */

import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['tests/{kernel,app,outside}/**/*.test.ts', 'tests/adapters/ear/utterance/*.test.ts'],
    exclude: [
      'tests/kernel/{figures,kinds,numbers}/**',
      'tests/kernel/response/{corpora,readBack}.test.ts',
      'tests/kernel/run/**/{parrot,dealtTalk,model}.test.ts',
      'tests/app/crash.test.ts',
    ],
    environment: 'node',
    setupFiles: ['tests/propertySeed.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
})
