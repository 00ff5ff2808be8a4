/** The packs as the screens list them; each edition is checked once. */

import { filesOf, type PackTexts } from '../../packs/files/parts.ts'
import type { OwnPack, RunArchive } from '../../ports.ts'
import type { AllPackFiles } from './allPackFiles.ts'
import type { OwnPacks } from './ownPacks.ts'
import type { PackEntry } from './shelfState.ts'

type Listed = Omit<PackEntry, 'flownAt' | 'newer'>

export interface PackList {
  entries(): Promise<readonly PackEntry[]>
  /** Of a pack that came with the app, or of one's own. */
  filesOf(key: string): Promise<PackTexts>
}

export function createPackList(packFiles: AllPackFiles, own: Pick<OwnPacks, 'all'>, log: RunArchive): PackList {
  const inspected = new Map<string, { readonly changedAt: number | undefined; readonly entry: Promise<Listed> }>()
  const shippedFiles = new Map<string, Promise<PackTexts>>()

  function filesOfShipped(id: string): Promise<PackTexts> {
    const files =
      shippedFiles.get(id) ??
      Promise.all([packFiles.load(id), packFiles.examples(id)]).then(([{ texts }, sheets]) => filesOf(texts, sheets))
    shippedFiles.set(id, files)
    return files
  }

  /** One edition is looked at once, however often the list is shown. */
  function once(key: string, changedAt: number | undefined, look: () => Promise<Listed>): Promise<Listed> {
    const before = inspected.get(key)
    if (before && before.changedAt === changedAt) return before.entry
    const entry = look()
    inspected.set(key, { changedAt, entry })
    return entry
  }

  /** What came with the app in place of what a copy was made from. */
  async function newerThan(from: OwnPack['from'], all: readonly Listed[]): Promise<PackEntry['newer']> {
    const now = from && all.find(({ key, isOwn }) => !isOwn && key === from.id)
    if (!now) return undefined
    const files = await filesOfShipped(now.key)
    const names = new Set([...Object.keys(files), ...Object.keys(from.files)])
    const isSame = [...names].every((name) => files[name] === from.files[name])
    return isSame ? undefined : { name: now.name, version: now.version, before: from.version }
  }

  return {
    async filesOf(key) {
      const pack = (await own.all()).find((one) => one.key === key)
      return pack ? pack.files : filesOfShipped(key)
    },
    async entries() {
      const flown = await lastFlown(log)
      const kept = await own.all()
      const mine = kept.map((pack) => once(pack.key, pack.changedAt, () => entryOf({ ...pack, isOwn: true })))
      const theirs = (await packFiles.shipped()).map(({ id }) =>
        once(id, undefined, async () => {
          return entryOf({ key: id, files: await filesOfShipped(id), label: id, changedAt: undefined, isOwn: false })
        }),
      )
      const all = await Promise.all([...mine, ...theirs])
      const listed = all.map(async (entry) => {
        const from = entry.isOwn ? kept.find(({ key }) => key === entry.key)?.from : undefined
        return { ...entry, flownAt: flown.get(entry.id), newer: await newerThan(from, all) }
      })
      return Promise.all(listed)
    },
  }
}

/** Pack id -> when it was last flown. */
async function lastFlown(log: RunArchive): Promise<ReadonlyMap<string, number>> {
  const flown = new Map<string, number>()
  // Without its log a run is flown all the same, and a list is shown.
  for (const { packId, startedAt } of await log.runs().catch(() => [])) {
    if (packId !== undefined) flown.set(packId, Math.max(startedAt, flown.get(packId) ?? 0))
  }
  return flown
}

type Kept = Omit<OwnPack, 'changedAt'> & { readonly changedAt: number | undefined; readonly isOwn: boolean }

async function entryOf({ key, files, label, changedAt, isOwn }: Kept): Promise<Listed> {
  // Reading YAML is a good part of the app, and the first screen needs none of it.
  const { inspect } = await import('../../packs/files/inspect.ts')
  const { pack, name, ...shown } = await inspect(files)
  return {
    ...shown,
    ...{ key, isOwn, changedAt },
    name: name || label,
    pack,
    paths: Object.keys(files),
  }
}
