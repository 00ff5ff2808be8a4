import { fileURLToPath } from 'node:url'
import preact from '@preact/preset-vite'
import { defineConfig } from 'vite'

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))

export default defineConfig({
  root: here('src'),
  publicDir: here('public'),
  base: './',
  // Not a single-page fallback: the recogniser probes for an optional model file and takes any 200 for it.
  appType: 'mpa',
  plugins: [preact()],
  worker: { format: 'es' },
  // Packs and the voice's recording lie beside `src`.
  server: { fs: { allow: [here('.')] } },
  resolve: {
    // soundswallower imports blob-polyfill, which touches `document` and so dies in a worker.
    alias: { 'blob-polyfill': here('src/adapters/ear/blob.ts') },
  },
  build: { target: 'es2022', outDir: here('dist'), emptyOutDir: true },
})
