/**
 * What the first visit loads before the page can be used: the scripts of the first
 * screen, and all of them, as a server that compresses sends them.
 */

import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'
import { build } from 'vite'

const CONFIG = fileURLToPath(new URL('../../vite.config.ts', import.meta.url))

export async function measure(): Promise<Record<string, number>> {
  const outDir = await mkdtemp(join(tmpdir(), 'otherseat-bytes-'))
  try {
    await build({ configFile: CONFIG, logLevel: 'silent', build: { outDir, emptyOutDir: true } })
    const html = await readFile(join(outDir, 'index.html'), 'utf8')
    const first = [...html.matchAll(/<(?:script[^>]+src|link rel="modulepreload"[^>]+href)="\.?\/?([^"]+)"/g)]
    const names = first.map(([, name]) => name ?? '')
    if (names.length === 0) throw new Error(`no script in the built page: ${(await readdir(outDir)).join(', ')}`)
    const sizes = await Promise.all(names.map(async (name) => zipped(await readFile(join(outDir, name)))))
    const scripts = (await readdir(join(outDir, 'assets'))).filter((name) => /\.js$/.test(name) && !/worker/.test(name))
    const all = await Promise.all(scripts.map(async (name) => zipped(await readFile(join(outDir, 'assets', name)))))
    return {
      'bytes.firstScriptGzip': sum(sizes),
      // With every screen, what a run needs, the YAML reader and the packs; workers and the model apart.
      'bytes.allScriptsGzip': sum(all),
    }
  } finally {
    await rm(outDir, { recursive: true, force: true })
  }
}

const zipped = (bytes: Uint8Array) => gzipSync(bytes, { level: 9 }).length
const sum = (sizes: readonly number[]) => sizes.reduce((total, size) => total + size, 0)
