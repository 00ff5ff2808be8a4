import preact from '@preact/preset-vite'
import { defineConfig } from 'vitest/config'

/** Far more than any test needs: a busy machine must not decide one. */
const PATIENCE_MS = 600_000
const BROWSER_PATIENCE_MS = 120_000

export default defineConfig({
  test: {
    // Also where there are only two cores; what a browser does is for one at a time all the same.
    maxWorkers: '100%',
    projects: [
      {
        test: {
          name: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**'],
          environment: 'node',
          // Nothing here leaves anything behind in a module; reading the sources anew for each file takes half of the time.
          isolate: false,
          setupFiles: ['tests/propertySeed.ts'],
          testTimeout: PATIENCE_MS,
          hookTimeout: PATIENCE_MS,
        },
      },
      {
        plugins: [preact()],
        test: {
          name: 'ui',
          include: ['tests/ui/**/*.test.tsx'],
          environment: 'jsdom',
          setupFiles: ['tests/propertySeed.ts', 'tests/ui/lastEffects.ts'],
          testTimeout: PATIENCE_MS,
          hookTimeout: PATIENCE_MS,
        },
      },
      {
        test: {
          name: 'screens',
          include: ['tests/browser/*.test.ts'],
          environment: 'node',
          globalSetup: ['tests/browser/setup.ts'],
          fileParallelism: false,
          testTimeout: 2 * BROWSER_PATIENCE_MS,
          hookTimeout: BROWSER_PATIENCE_MS,
        },
      },
      {
        test: {
          name: 'sound',
          include: ['tests/browser/sound/*.test.ts'],
          environment: 'node',
          globalSetup: ['tests/browser/setup.ts'],
          fileParallelism: false,
          testTimeout: 2 * BROWSER_PATIENCE_MS,
          hookTimeout: BROWSER_PATIENCE_MS,
        },
      },
    ],
  },
})
