/** Who may import whom: the table of the house, held against every import in `src`. */

import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, normalize, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'

const SRC = fileURLToPath(new URL('../src', import.meta.url))

/** Folder of `src` (or file beside them) -> prefixes of what it may import, besides its own folder. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  kernel: [],
  packs: ['kernel/'],
  'ports.ts': ['kernel/', 'room/'],
  'emitter.ts': [],
  room: ['kernel/'],
  adapters: ['ports.ts', 'emitter.ts', 'kernel/', 'packs/digest.ts', 'room/'],
  app: ['kernel/', 'packs/', 'ports.ts', 'emitter.ts', 'room/'],
  ui: ['app/', 'kernel/', 'ports.ts', 'room/'],
  cli: ['kernel/', 'packs/', 'ports.ts', 'adapters/', 'app/'],
  build: ['kernel/', 'packs/', 'ports.ts', 'adapters/', 'app/', 'cli/', 'room/'],
  'offline.ts': [],
  'composeApp.ts': ['kernel/', 'packs/', 'ports.ts', 'adapters/', 'app/'],
  'main.tsx': ['composeApp.ts', 'kernel/', 'packs/', 'ports.ts', 'adapters/', 'app/', 'ui/', 'offline.ts'],
}

/** Packages each folder may use; `build` runs beside the app and may use any. */
const PACKAGES: Readonly<Record<string, readonly string[]>> = {
  kernel: [],
  packs: ['fflate', 'yaml', 'zod'],
  'ports.ts': [],
  'emitter.ts': [],
  adapters: [
    'comlink',
    'idb',
    'yaml',
    'soundswallower',
    '@jitsi/rnnoise-wasm',
    'onnxruntime-web/wasm',
    'llama-tokenizer-js',
    '@hocuspocus/provider',
    'yjs',
    'node:',
  ],
  app: ['zustand/vanilla', 'ts-fsrs'],
  ui: ['preact', 'zustand/vanilla', '@codemirror', '@lezer/highlight', 'uplot', 'uqr'],
  cli: ['node:'],
  'offline.ts': [],
  'composeApp.ts': [],
  'main.tsx': ['preact'],
}

/** Inside the kernel a folder imports only from those before it. */
const KERNEL_ORDER = [
  '',
  'statistics',
  'numbers',
  'kinds',
  'figures',
  'response',
  'pack',
  'papers',
  'hearing',
  'run',
  'training',
  'interpret',
]

/** The adapters that run in Node: the command line may use no other one. */
const NODE_ADAPTERS = /^adapters\/(log\/(fileLog|memoryLog)|ear\/node\w*|voice\/clips|clock)\.ts$/

interface Import {
  readonly from: string
  /** Path in `src`, or the name of a package. */
  readonly to: string
  readonly isOurs: boolean
  readonly typeOnly: boolean
}

const files = readdirSync(SRC, { recursive: true, encoding: 'utf8' })
  .map((file) => file.split(sep).join('/'))
  .filter((file) => /\.tsx?$/.test(file))

const imports: Import[] = files.flatMap((from) => {
  const text = readFileSync(join(SRC, from), 'utf8')
  const found = text.matchAll(
    /^\s*(?:import|export)\s+(type\s)?[^'"]*?from\s+'([^']+)'|\bimport\(\s*'([^']+)'|^import\s+'([^']+)'/gm,
  )
  return [...found].map((match) => {
    const name = match[2] ?? match[3] ?? match[4] ?? ''
    const isOurs = name.startsWith('.')
    const to = isOurs
      ? normalize(join(dirname(from), name.replace(/\?.*$/, '')))
          .split(sep)
          .join('/')
      : name
    return { from, to, isOurs, typeOnly: match[1] !== undefined }
  })
})

const layerOf = (file: string) => file.split('/')[0] ?? ''
/** Beside `src` lies data: the shipped packs and the voice's clips. Only adapters and what builds them read it. */
const isData = (from: string, to: string) =>
  ['adapters', 'build'].includes(layerOf(from)) && /^\.\.\/(checklists|starts|audio\/voice)\//.test(to)
const show = ({ from, to }: Import) => `${from} imports ${to}`

test('imports are found at all', () => {
  expect(imports.length).toBeGreaterThan(files.length)
})

test.each(Object.keys(MAY_IMPORT))('%s imports only what it may', (layer) => {
  const own = layer.includes('.') ? layer : `${layer}/`
  const allowed = [own, ...(MAY_IMPORT[layer] ?? [])]
  const wrong = imports
    .filter(({ from, isOurs }) => isOurs && layerOf(from) === layer)
    .filter(({ from, to }) => !isData(from, to) && !allowed.some((prefix) => to.startsWith(prefix)))
  expect(wrong.map(show)).toEqual([])
})

test('every file of src belongs to a layer', () => {
  expect(files.filter((file) => !(layerOf(file) in MAY_IMPORT))).toEqual([])
})

test.each(Object.keys(PACKAGES))('%s uses only its own packages', (layer) => {
  const allowed = PACKAGES[layer] ?? []
  const isAllowed = ({ from, to }: Import) =>
    allowed.some((name) => to === name || to.startsWith(name.endsWith(':') ? name : `${name}/`)) ||
    (from === 'kernel/response/wording.ts' && to === 'fuse.js')
  const wrong = imports.filter((one) => !one.isOurs && layerOf(one.from) === layer && !isAllowed(one))
  expect(wrong.map(show)).toEqual([])
})

describe('inside the layers', () => {
  test('a folder of the kernel imports only from those before it', () => {
    const place = (file: string) => KERNEL_ORDER.indexOf(file.split('/').slice(1, -1)[0] ?? '')
    const inKernel = imports.filter((one) => one.from.startsWith('kernel/') && one.isOurs)
    expect(inKernel.length).toBeGreaterThan(0)
    expect(inKernel.filter(({ from, to }) => place(from) < 0 || place(to) > place(from)).map(show)).toEqual([])
  })

  test('no adapter imports from another adapter’s folder', () => {
    const folder = (file: string) => (file.split('/').length > 2 ? file.split('/')[1] : undefined)
    const wrong = imports.filter(
      ({ from, to }) =>
        from.startsWith('adapters/') &&
        to.startsWith('adapters/') &&
        folder(to) !== undefined &&
        folder(to) !== folder(from),
    )
    expect(wrong.map(show)).toEqual([])
  })

  test('the command line uses only adapters that run in Node', () => {
    const wrong = imports.filter(
      ({ from, to }) => from.startsWith('cli/') && to.startsWith('adapters/') && !NODE_ADAPTERS.test(to),
    )
    expect(wrong.map(show)).toEqual([])
  })

  test('nobody imports main', () => {
    expect(imports.filter(({ to }) => to === 'main.tsx').map(show)).toEqual([])
  })
})

test('no file imports itself by way of others', () => {
  const importsOf = new Map(
    files.map((file) => [file, imports.filter(({ from }) => from === file).map(({ to }) => to)]),
  )
  const clear = new Set<string>()
  const cycleFrom = (file: string, path: readonly string[]): readonly string[] | undefined => {
    if (path.includes(file)) return [...path.slice(path.indexOf(file)), file]
    if (clear.has(file)) return undefined
    for (const next of importsOf.get(file) ?? []) {
      const cycle = cycleFrom(next, [...path, file])
      if (cycle) return cycle
    }
    clear.add(file)
    return undefined
  }
  expect(files.map((file) => cycleFrom(file, [])).filter((cycle) => cycle)).toEqual([])
})

test('an import of our own names the very file', () => {
  const wrong = imports.filter(({ to, isOurs }) => isOurs && !/\.(tsx?|css|ya?ml|json|mp3|md)$/.test(to))
  expect(wrong.map(show)).toEqual([])
})

test('the kernel asks neither for the time nor for chance, and touches no browser and no Node', () => {
  const wrong = files
    .filter((file) => file.startsWith('kernel/'))
    .filter((file) => {
      const code = readFileSync(join(SRC, file), 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '')
      return /\b(Math\.random|Date\.now|new Date\b|fetch\(|window\.|process\.|globalThis\.)/.test(code)
    })
  expect(wrong).toEqual([])
})
