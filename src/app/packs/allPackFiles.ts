/** Packs that came with the app and those of one's own, to be flown alike: a run asks for one by its id, or by its key. */

import { packSha256 } from '../../packs/digest.ts'
import { sheetsOf, textsOf } from '../../packs/files/parts.ts'
import type { OwnPack, PackFiles } from '../../ports.ts'
import type { PackSummary } from '../store.ts'
import type { OwnPacks } from './ownPacks.ts'

export interface AllPackFiles extends PackFiles {
  list(): Promise<readonly PackSummary[]>
  /** Those that came with the app. */
  shipped(): ReturnType<PackFiles['list']>
}

export function allPackFiles(shipped: PackFiles, own: Pick<OwnPacks, 'all'>): AllPackFiles {
  const byKey = async (key: string) => (await own.all()).find((one) => one.key === key)

  async function load(id: string) {
    const pack = await byKey(id)
    return pack ? editionOf(pack) : shipped.load(id)
  }

  return {
    load,
    shipped: shipped.list,
    async list() {
      // Reading YAML is a good part of the app, and the first screen needs none of it.
      const { titleOf } = await import('../../packs/files/title.ts')
      const listed = (await own.all()).map(async (pack): Promise<PackSummary> => {
        const { name, aircraft } = titleOf(pack.files)
        return { id: pack.key, name: name || pack.label, aircraft, sha256: (await editionOf(pack)).sha256 }
      })
      return [...(await Promise.all(listed)), ...(await shipped.list())]
    },
    async examples(id, sha256) {
      const pack = (await byKey(id)) ?? (await ofEdition(await own.all(), sha256))
      return pack ? sheetsOf(pack.files) : shipped.examples(id)
    },
    async demonstrations(id, sha256) {
      const pack = (await byKey(id)) ?? (await ofEdition(await own.all(), sha256))
      return pack ? {} : shipped.demonstrations(id)
    },
  }
}

async function editionOf(pack: OwnPack) {
  const texts = textsOf(pack.files)
  return { texts, sha256: await packSha256(texts) }
}

async function ofEdition(packs: readonly OwnPack[], sha256: string | undefined): Promise<OwnPack | undefined> {
  if (sha256 === undefined) return undefined
  const editions = await Promise.all(packs.map(async (pack) => ({ pack, ...(await editionOf(pack)) })))
  return editions.find((one) => one.sha256 === sha256)?.pack
}
