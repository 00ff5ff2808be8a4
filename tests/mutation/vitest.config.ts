/** The tests that a mutation run may use: those in Node that need no recogniser and no browser. */

import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['tests/{kernel,app,cli,packs,outside}/**/*.test.ts'],
    exclude: ['tests/cli/hear.test.ts'],
    environment: 'node',
    setupFiles: ['tests/propertySeed.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
})
