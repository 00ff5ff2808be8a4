/** The starting points as they lie on the disk. */

import { readdir, readFile } from 'node:fs/promises'
import type { PackFiles } from '../../src/ports.ts'

const textsIn = async (folder: string) => {
  const names = (await readdir(folder)).filter((name) => name.endsWith('.yaml'))
  const texts = names.map(async (name) => [name, await readFile(`${folder}/${name}`, 'utf8')] as const)
  return Object.fromEntries(await Promise.all(texts))
}

export const fakeStarts: Pick<PackFiles, 'load' | 'examples'> = {
  load: async (id) => ({ texts: await textsIn(`src/packs/starts/${id}`), sha256: '' }),
  async examples(id) {
    const sheets = Object.entries(await textsIn(`src/packs/starts/${id}/inputs`))
    return Object.fromEntries(sheets.map(([name, text]) => [name.replace('.yaml', ''), text]))
  },
}
