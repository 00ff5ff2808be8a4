/** The packs that come with the app: the YAML files under `checklists/`, one folder each, loaded when asked for. */

import { packSha256 } from '../packs/digest.ts'
import type { PackFiles } from '../ports.ts'

export type Glob = Readonly<Record<string, () => Promise<string>>>

const FILES: Glob = import.meta.glob<string>('../../checklists/*/*.yaml', { query: '?raw', import: 'default' })

const EXAMPLES: Glob = import.meta.glob<string>('../../checklists/*/inputs/*.yaml', {
  query: '?raw',
  import: 'default',
})

const DEMONSTRATIONS: Glob = import.meta.glob<string>('../../checklists/*/demonstrations/*.yaml', {
  query: '?raw',
  import: 'default',
})

/** Maps paths to what loads them: `files` those that end in `<pack>/<file>.yaml`, the others those in a folder of the pack. */
export function createPackFiles(
  files: Glob = FILES,
  examples: Glob = EXAMPLES,
  shown: Glob = DEMONSTRATIONS,
): PackFiles {
  const packs = byPack(files)

  async function load(id: string) {
    const found = packs.get(id)
    if (!found) throw new Error(`There is no pack ${id}; ${[...packs.keys()].join(', ')} would be right.`)
    const loaded = await Promise.all([...found].map(async ([file, read]) => [file, await read()] as const))
    const texts = Object.fromEntries(loaded)
    return { texts, sha256: await packSha256(texts) }
  }

  return {
    load,
    examples: (id) => named(examples, id),
    demonstrations: (id) => named(shown, id),
    list: () =>
      Promise.all(
        [...packs].map(async ([id, found]) => ({
          id,
          ...(await titles(id, (await found.get('pack.yaml')?.()) ?? '')),
        })),
      ),
  }
}

/** Of one pack: name without folder and ending -> text. */
async function named(files: Glob, id: string): Promise<Readonly<Record<string, string>>> {
  const own = Object.entries(files).filter(([path]) => path.split('/').at(-3) === id)
  const read = own.map(async ([path, load]) => [/([^/]+)\.yaml$/.exec(path)?.[1] ?? path, await load()] as const)
  return Object.fromEntries(await Promise.all(read))
}

/** Pack -> file name -> what loads it. */
function byPack(files: Glob): Map<string, Map<string, () => Promise<string>>> {
  const packs = new Map<string, Map<string, () => Promise<string>>>()
  for (const [path, read] of Object.entries(files)) {
    const [id, file] = path.split('/').slice(-2)
    if (id === undefined || file === undefined) continue
    packs.set(id, (packs.get(id) ?? new Map()).set(file, read))
  }
  return packs
}

/** What the start screen shows of a pack; one that cannot be read is listed by its folder and fails when opened. */
async function titles(id: string, text: string): Promise<{ name: string; aircraft: string }> {
  try {
    const { parse } = await import('yaml')
    const { name, aircraft } = parse(text)
    return { name: String(name ?? id), aircraft: String(aircraft ?? '') }
  } catch {
    return { name: id, aircraft: '' }
  }
}
