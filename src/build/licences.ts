/** What of other people's work goes to the user's browser, and under which licence: one text beside the app, made by its build. */

import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Plugin, Rollup } from 'vite'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))

/** Licences (by their SPDX names) that leave everyone free to use and pass on what ships. */
const ALLOWED = new Set(['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', 'Apache-2.0', '0BSD', 'MIT-0'])
/** Where a package's manifest has none: as its own licence file says. */
const BY_FILE: Readonly<Record<string, string>> = { '@jitsi/rnnoise-wasm': 'Apache-2.0' }
/** Of what no bundle names since it is copied as it is: models, voices, binaries. From the root. */
const COPIED: readonly (readonly [title: string, file: string])[] = [
  ['Otherseat itself', 'LICENSE'],
  ['The first model, of soundswallower', 'public/model/en-us/NOTICE.txt'],
  ['The second model, of moonshine', 'node_modules/@moonshine-ai/moonshine-js/LICENSE'],
  ['Noise suppression', 'node_modules/@jitsi/rnnoise-wasm/LICENSE'],
  ['The embedded voices', 'audio/voice/LICENSE.md'],
]
const PACKAGES_COPIED = [
  ...['@moonshine-ai/moonshine-js', '@jitsi/rnnoise-wasm', 'onnxruntime-web', 'soundswallower'],
  // Of these the service worker is made.
  ...['workbox-core', 'workbox-precaching', 'workbox-routing', 'workbox-strategies'],
]

export interface Licensed {
  readonly name: string
  readonly version: string
  /** SPDX name. */
  readonly licence: string
  readonly text?: string
}

/** Of the package in this folder. Throws where its licence is none that may ship. */
export function licenceOf(folder: string): Licensed {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'))
  const licence = license ?? BY_FILE[name] ?? 'none named'
  if (!ALLOWED.has(licence)) {
    throw new Error(`${name} ${version}: licence ${licence}; what ships is under one of ${[...ALLOWED].join(', ')}`)
  }
  const file = readdirSync(folder).find((entry) => /^(licen[cs]e|copying)/i.test(entry))
  return { name, version, licence, ...(file && { text: readFileSync(join(folder, file), 'utf8').trim() }) }
}

/** The package that a module is of; undefined for our own and made-up ones. */
export function packageFolder(moduleId: string): string | undefined {
  const [path = ''] = moduleId.split('?')
  if (moduleId.startsWith('\0') || !path.includes('/node_modules/')) return undefined
  for (let folder = dirname(path); folder !== dirname(folder); folder = dirname(folder)) {
    const manifest = join(folder, 'package.json')
    if (existsSync(manifest) && 'version' in JSON.parse(readFileSync(manifest, 'utf8'))) return folder
  }
  return undefined
}

const RULE = `\n\n${'-'.repeat(78)}\n\n`

export function licenceText(packages: readonly Licensed[]): string {
  const sorted = packages.toSorted((a, b) => a.name.localeCompare(b.name))
  const list = sorted.map(({ name, version, licence }) => `${name} ${version}: ${licence}`).join('\n')
  const texts = [
    ...COPIED.map(([title, file]) => `${title}\n\n${readFileSync(join(ROOT, file), 'utf8').trim()}`),
    ...sorted.flatMap(({ name, text }) => (text ? [`${name}\n\n${text}`] : [])),
  ]
  return [`What Otherseat is made of, and under which licences\n\n${list}`, ...texts].join(RULE)
}

/** One for the page and, since a worker is a bundle of its own, another for its workers: they share what they find. */
export function licences(): { readonly page: Plugin; readonly worker: () => Plugin } {
  const folders = new Set(PACKAGES_COPIED.map((name) => join(ROOT, 'node_modules', name)))
  const collect = (bundle: Rollup.OutputBundle) => {
    const chunks = Object.values(bundle).filter((part) => part.type === 'chunk')
    for (const folder of chunks.flatMap(({ moduleIds }) => moduleIds).map(packageFolder))
      if (folder) folders.add(folder)
  }
  return {
    page: {
      name: 'licences',
      apply: 'build',
      generateBundle(_, bundle) {
        collect(bundle)
        const found = new Map([...folders].map(licenceOf).map((one) => [`${one.name} ${one.version}`, one]))
        this.emitFile({ type: 'asset', fileName: 'licences.txt', source: licenceText([...found.values()]) })
      },
    },
    worker: () => ({ name: 'licences of a worker', apply: 'build', generateBundle: (_, bundle) => collect(bundle) }),
  }
}
