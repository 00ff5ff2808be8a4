/** A pack's folder on disk -> its texts and the pack. The only place where the command line reads packs. */

import { createHash } from 'node:crypto'
import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Pack } from '../kernel/pack/checklist.ts'
import type { Problem } from '../kernel/problem.ts'
import { digestBytes } from '../packs/digest.ts'
import { readPack } from '../packs/read.ts'

export interface PackOnDisk {
  readonly pack?: Pack
  readonly problems: readonly Problem[]
  readonly texts: Readonly<Record<string, string>>
}

/** Reads the YAML files of a folder (not of its sub-folders); places in problems carry the folder. */
export async function readPackDir(dir: string): Promise<PackOnDisk> {
  let names: string[]
  try {
    names = (await readdir(dir)).filter((name) => name.endsWith('.yaml'))
  } catch {
    const message = `${dir}: no such folder; name the folder of a pack, such as checklists/NAME`
    return { problems: [{ code: 'pack.files', message, severity: 'error' }], texts: {} }
  }
  const entries = await Promise.all(names.map(async (name) => [name, await readFile(join(dir, name), 'utf8')] as const))
  const texts = Object.fromEntries(entries)
  const sha256 = createHash('sha256').update(digestBytes(texts)).digest('hex')
  const { pack, problems } = readPack(texts, sha256)
  const placed = problems.map((problem) => {
    const { place } = problem
    return place ? { ...problem, place: { ...place, file: join(dir, place.file) } } : problem
  })
  return { ...(pack && { pack }), problems: placed, texts }
}
