/** Beside each file of a build that gains by it, the same as Brotli: what `serve.ts` and common servers send as it lies. */

import { readdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { brotliCompress, constants } from 'node:zlib'
import type { Plugin } from 'vite'

const brotli = promisify(brotliCompress)

/** Sound and pictures are compressed as they are. */
const IS_DENSE = /\.(br|mp3|png|woff2)$/
/** Below that a header costs more than is saved. Bytes. */
const LEAST = 1_024
/** Of the most that Brotli can do, what a build can wait for with a model of tens of megabytes. */
const [QUALITY, QUALITY_OF_LARGE, LARGE] = [9, 5, 4 * 1_024 * 1_024]
/** A file that hardly shrinks is sent as it is. */
const WORTH = 0.9

export const compress: Plugin = {
  name: 'compressed beside',
  apply: 'build',
  enforce: 'post',
  closeBundle: {
    order: 'post',
    // After the service worker has been written.
    sequential: true,
    async handler() {
      const { outDir } = this.environment.config.build
      const entries = await readdir(outDir, { recursive: true, withFileTypes: true })
      const files = entries.filter((entry) => entry.isFile() && !IS_DENSE.test(entry.name))
      await Promise.all(files.map(({ parentPath, name }) => beside(join(parentPath, name))))
    },
  },
}

async function beside(path: string): Promise<void> {
  const bytes = await readFile(path)
  if (bytes.length < LEAST) return
  const quality = bytes.length > LARGE ? QUALITY_OF_LARGE : QUALITY
  const small = await brotli(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: quality } })
  if (small.length < WORTH * bytes.length) await writeFile(`${path}.br`, small)
}
