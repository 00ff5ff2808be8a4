/**
 * The tests of a mutation run: those that need no recogniser and no browser, with few of the cases that are made up. What
 * only the many would notice counts as a survivor. Tests of the screens are put to the app alone, for they take long.
 */

import preact from '@preact/preset-vite'
import { defineConfig } from 'vitest/config'

const PATIENCE_MS = 120_000
const common = {
  setupFiles: ['tests/propertySeed.ts'],
  env: { CASES_SHARE: '0.1' },
  testTimeout: PATIENCE_MS,
  hookTimeout: PATIENCE_MS,
}

const node = {
  test: {
    ...common,
    name: 'node',
    include: ['tests/{kernel,app,outside}/**/*.test.ts', 'tests/adapters/ear/utterance/*.test.ts'],
    exclude: [
      'tests/kernel/{figures,kinds,numbers}/**',
      'tests/kernel/run/talk/{parrot,dealtTalk}.test.ts',
      'tests/app/crash.test.ts',
    ],
    environment: 'node' as const,
  },
}
const ui = {
  plugins: [preact()],
  test: { ...common, name: 'ui', include: ['tests/ui/**/*.test.tsx'], environment: 'jsdom' as const },
}

export default defineConfig({ test: { projects: process.env.MUTATION_AREA === 'app' ? [node, ui] : [node] } })
