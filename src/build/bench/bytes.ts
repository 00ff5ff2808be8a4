/** What the first visit loads before the page can be used: the first script, as a server that compresses sends it. */

import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'
import { build } from 'vite'

const CONFIG = fileURLToPath(new URL('../../../vite.config.ts', import.meta.url))

export async function measure(): Promise<Record<string, number>> {
  const outDir = await mkdtemp(join(tmpdir(), 'otherseat-bytes-'))
  try {
    await build({ configFile: CONFIG, logLevel: 'silent', build: { outDir, emptyOutDir: true } })
    const html = await readFile(join(outDir, 'index.html'), 'utf8')
    const script = /<script[^>]+src="\.?\/?([^"]+)"/.exec(html)?.[1]
    if (!script) throw new Error(`no script in the built page: ${(await readdir(outDir)).join(', ')}`)
    return { 'bytes.firstScriptGzip': gzipSync(await readFile(join(outDir, script)), { level: 9 }).length }
  } finally {
    await rm(outDir, { recursive: true, force: true })
  }
}
