import preact from '@preact/preset-vite'
import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**'],
          environment: 'node',
        },
      },
      {
        plugins: [preact()],
        test: { name: 'ui', include: ['tests/ui/**/*.test.tsx'], environment: 'jsdom' },
      },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          environment: 'node',
          globalSetup: ['tests/browser/setup.ts'],
          fileParallelism: false,
          testTimeout: 240_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
})
