import { fileURLToPath } from 'node:url'
import preact from '@preact/preset-vite'
import { defineConfig, type Plugin } from 'vite'
import { VitePWA } from 'vite-plugin-pwa'
import { compress } from './src/build/compress.ts'
import { PAGE_POLICY } from './src/build/headers.ts'
import { licences } from './src/build/licences.ts'

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))

/** The browser itself sees to it that the page asks no other origin. Only as built: reloading on change needs more. */
const policy: Plugin = {
  name: 'content security policy',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      injectTo: 'head-prepend',
      attrs: {
        'http-equiv': 'Content-Security-Policy',
        content: PAGE_POLICY,
      },
    },
  ],
}

const made = licences()
/** That the compressor takes its time is no news. */
const QUIET = { checks: { pluginTimings: false } }

export default defineConfig({
  root: here('src'),
  publicDir: here('public'),
  base: './',
  // Not a single-page fallback: the recogniser probes for an optional model file and takes any 200 for it.
  appType: 'mpa',
  plugins: [
    preact(),
    policy,
    VitePWA({
      // `src/adapters/edition.ts` registers it; a new edition waits until no tab has the old one open.
      registerType: 'prompt',
      injectRegister: false,
      manifest: false,
      workbox: {
        // Files of the model have no ending of their own.
        globPatterns: ['**/*.{html,js,css,wasm,webmanifest,svg,png,mp3,json}', 'model/**/*', 'licences.txt'],
        // The whole dictionary serves packs of the user's own: kept once it was asked for.
        globIgnores: [
          ...['**/all-words.txt', '**/rescorer-*/*', '**/ort-*.wasm', '**/rescorer.worker-*.js'],
          // Only with a server of rooms, and so with a network.
          '**/{Room,room,roomLink}-*.{js,css}',
        ],
        runtimeCaching: [
          { urlPattern: /\/all-words\.txt$/, handler: 'StaleWhileRevalidate' },
          // Large, not needed to begin with, and never other than its name says.
          { urlPattern: /\/(rescorer-[^/]*\/|assets\/(ort-|rescorer\.worker-))/, handler: 'CacheFirst' },
        ],
        maximumFileSizeToCacheInBytes: 8 * 1024 * 1024,
      },
    }),
    made.page,
    compress,
  ],
  worker: { format: 'es', plugins: () => [made.worker()], rolldownOptions: QUIET },
  // Packs and the voice's recording lie beside `src`.
  server: { fs: { allow: [here('.')] } },
  resolve: {
    // soundswallower imports blob-polyfill, which touches `document` and so dies in a worker.
    alias: { 'blob-polyfill': here('src/adapters/ear/recogniser/blobPolyfill.ts') },
  },
  build: {
    target: 'es2022',
    outDir: here('dist'),
    emptyOutDir: true,
    rolldownOptions: QUIET,
    // A browser without module preload loads the same, a little later.
    modulePreload: { polyfill: false },
  },
})
