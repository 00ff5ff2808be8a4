/** A pack comes in: read as a whole or not at all, and where its id is there already, the person is asked. */

import type { OfferedFile } from '../../packs/files/offered.ts'
import type { OwnPack } from '../../ports.ts'
import type { Store } from '../store.ts'
import type { OwnPacks } from './ownPacks.ts'
import type { Undo } from './packUndo.ts'
import type { ShelfState } from './shelfState.ts'

export interface PackImportParts {
  readonly store: Store
  readonly own: OwnPacks
  readonly undo: Undo
  readonly newKey: () => string
  readonly now: () => number
}

export interface PackImport {
  files(offered: readonly OfferedFile[]): Promise<void>
  text(text: string): Promise<void>
  /** Behind the "#" of an address: looked at, and taken only when the person says so. */
  link(fragment: string): Promise<void>
  answerLink(isWanted: boolean): Promise<void>
  answer(what: 'replace' | 'both' | 'neither'): Promise<void>
}

export function createPackImport({ store, own, undo, newKey, now }: PackImportParts): PackImport {
  let waiting: { readonly pack: OwnPack; readonly there: OwnPack } | undefined

  let linked: readonly OfferedFile[] = []

  const show = (change: Partial<ShelfState>) => store.setState(({ shelf }) => ({ shelf: { ...shelf, ...change } }))
  const add = (pack: OwnPack) => own.change(pack.key, () => pack)

  async function files(offered: readonly OfferedFile[]): Promise<void> {
    // Unpacking and reading YAML are a good part of the app, and only an import needs them here.
    const [{ readBundle }, { titleOf }] = await Promise.all([
      import('../../packs/files/bundle.ts'),
      import('../../packs/files/title.ts'),
    ])
    const bundle = await readBundle(offered)
    waiting = undefined
    if ('wrong' in bundle) return show({ refused: bundle.wrong, told: [], asked: undefined })
    const { files, label, told } = bundle
    const pack = { key: newKey(), files, label: label || 'Pack without a name', changedAt: now() }
    const { id, name } = titleOf(files)
    const there = id === '' ? undefined : (await own.all()).find((one) => titleOf(one.files).id === id)
    show({ refused: '', told })
    if (!there) {
      show({ asked: undefined, told: [`${name || pack.label} is among your own packs now.`, ...told] })
      await undo.replaced(id)
      return add(pack)
    }
    waiting = { pack, there }
    const { differencesOf } = await import('../../packs/differences/differences.ts')
    const differences = differencesOf(there.files, pack.files)
    show({ asked: { name: name || pack.label, there: titleOf(there.files).name || there.label, differences } })
  }

  return {
    files,
    async link(fragment) {
      const [{ readBundle }, { listsIn, titleOf }, { zipIn }] = await Promise.all([
        import('../../packs/files/bundle.ts'),
        import('../../packs/files/title.ts'),
        import('../../packs/files/link.ts'),
      ])
      const zip = zipIn(fragment) ?? { wrong: 'There is no pack in the link.' }
      const offered = 'wrong' in zip ? [] : [{ path: 'link.zip', size: zip.length, bytes: async () => zip }]
      const bundle = 'wrong' in zip ? zip : await readBundle(offered)
      if ('wrong' in bundle) return show({ refused: bundle.wrong, told: [], linked: undefined })
      linked = offered
      const { name, aircraft, version } = titleOf(bundle.files)
      show({ refused: '', linked: { name, aircraft, version, lists: listsIn(bundle.files) } })
    },
    async answerLink(isWanted) {
      const offered = linked
      linked = []
      show({ linked: undefined })
      if (isWanted && offered.length > 0) await files(offered)
    },
    async text(text) {
      const { pastedFiles } = await import('../../packs/files/bundle.ts')
      const offered = pastedFiles(text)
      if ('wrong' in offered) show({ refused: offered.wrong, told: [], asked: undefined })
      else await files(offered)
    },
    async answer(what) {
      const { pack, there } = waiting ?? {}
      waiting = undefined
      show({ asked: undefined })
      if (!pack || !there || what === 'neither') return
      if (what === 'both') return add(pack)
      await undo.put(there.key, after(there, pack), (name) => `${name} was replaced.`)
    },
  }
}

/** Under the key of what it replaces, and later than that, also where a clock was put back. */
function after(there: OwnPack, pack: OwnPack): OwnPack {
  return { ...pack, key: there.key, changedAt: Math.max(pack.changedAt, there.changedAt + 1) }
}
