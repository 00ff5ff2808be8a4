/** One's own packs: kept, brought in and out, edited; and any pack opened to be flown. */

import { filesOf, type PackTexts } from '../../packs/files/parts.ts'
import type { OwnPack, PackFiles } from '../../ports.ts'
import type { AllPackFiles } from '../packs/allPackFiles.ts'
import type { OwnPacks } from '../packs/ownPacks.ts'
import { createPackEditing } from '../packs/packEditing.ts'
import { createPackImport } from '../packs/packImport.ts'
import { createPackList } from '../packs/packList.ts'
import { createUndo } from '../packs/packUndo.ts'
import type { ShelfState } from '../packs/shelfState.ts'
import type { ControllerParts, RunController } from '../run/controller.ts'
import { hasRunOn, isDraftEmpty } from '../selectors.ts'
import type { PackActions } from './actions.ts'

export interface PackActionParts extends Pick<ControllerParts, 'store' | 'log' | 'clock'> {
  readonly packFiles: AllPackFiles
  readonly own: OwnPacks
  readonly newPackKey: () => string
  readonly packStarts: Pick<PackFiles, 'load' | 'examples'>
}

/** The same asked for again while it is being done is no second order. `nameOf`: what makes it the same. */
function once<T>(work: (of: T) => Promise<void>, nameOf: (of: T) => string): (of: T) => Promise<void> {
  const running = new Map<string, Promise<void>>()
  return (of) => {
    const name = nameOf(of)
    const done = running.get(name) ?? work(of).finally(() => running.delete(name))
    running.set(name, done)
    return done
  }
}

const itself = (name: string) => name

export function packActions(parts: PackActionParts, controller: Pick<RunController, 'openPack'>): PackActions {
  const { store, log, clock, packFiles, packStarts, own, newPackKey: newKey } = parts
  const show = (change: Partial<ShelfState>) => store.setState(({ shelf }) => ({ shelf: { ...shelf, ...change } }))
  const list = createPackList(packFiles, own, log)
  const undo = createUndo({ own, newKey, tell: (undoable) => show({ undoable }) })
  const incoming = createPackImport({ store, own, undo, newKey, now: clock.now })
  const editing = createPackEditing({ store, own, clock, saved: readPacks })
  const load = () => import('../../packs/files/retitle.ts')

  /** What is chosen and has changed since is put aside, where nothing would be lost by it. */
  async function listPacks(): Promise<void> {
    const packs = await packFiles.list()
    const { chosen, pack, run, screen, sheets } = store.getState()
    store.setState({ packs })
    const now = packs.find(({ id }) => id === chosen)
    const isStale = chosen !== undefined && pack && (!now || (now.sha256 ?? pack.sha256) !== pack.sha256)
    const isUsed = run || sheets.length > 0 || !isDraftEmpty(store.getState()) || screen === 'figures'
    if (isStale && !isUsed) store.setState({ chosen: undefined, pack: undefined })
  }

  async function readPacks(): Promise<void> {
    show({ entries: await list.entries(), unkept: own.whyUnkept() })
    await listPacks()
  }

  async function then<T>(work: Promise<T>): Promise<T> {
    const done = await work
    await readPacks()
    return done
  }

  /** What a copy was made from, of those that came with the app; `files`: those of the pack that is copied. */
  async function originOf(key: string, files: PackTexts): Promise<OwnPack['from']> {
    const { titleOf } = await import('../../packs/files/title.ts')
    const mine = (await own.all()).find((one) => one.key === key)
    return mine ? mine.from : { id: key, version: titleOf(files).version, files }
  }

  async function compare(before: PackTexts, after: PackTexts, names: readonly [string, string]): Promise<void> {
    const { differencesOf } = await import('../../packs/differences/differences.ts')
    show({ compared: { before: names[0], after: names[1], differences: differencesOf(before, after) } })
  }

  async function packed(key: string): Promise<{ readonly name: string; readonly bytes: Uint8Array }> {
    await editing.close()
    const [{ zipOf }, { titleOf }] = await Promise.all([
      import('../../packs/files/zip.ts'),
      import('../../packs/files/title.ts'),
    ])
    const files = await list.filesOf(key)
    const changedAt = store.getState().shelf.entries?.find((one) => one.key === key)?.changedAt
    const folder = titleOf(files).id.replace(/[^a-z0-9-]/g, '') || 'pack'
    return { name: `${folder}.zip`, bytes: zipOf(files, folder, changedAt ?? clock.now()) }
  }

  /** Changes of another tab; an open list is read again. */
  async function reread(): Promise<void> {
    await editing.reread()
    await (store.getState().shelf.entries ? readPacks() : listPacks())
  }
  own.subscribe(() => void reread())

  return {
    listPacks,
    readPacks,
    importPack: once(
      (files) => then(incoming.files(files)),
      (files) => files.map(({ path, size }) => `${path} ${size}`).join('\n'),
    ),
    pastePack: (text) => then(incoming.text(text)),
    offerLink: incoming.link,
    answerLink: (isWanted) => then(incoming.answerLink(isWanted)),
    async linkTo(key) {
      const { linkOf } = await import('../../packs/files/link.ts')
      return linkOf((await packed(key)).bytes)
    },
    answerImport: (what) => then(incoming.answer(what)),
    async flyPack(key) {
      if (hasRunOn(store.getState())) return
      await editing.close()
      await controller.openPack(key)
      store.setState({ screen: store.getState().pack ? 'figures' : 'start' })
    },
    copyPack: once(async (key) => {
      const [{ copied }, { titleOf }] = await Promise.all([load(), import('../../packs/files/title.ts')])
      const [files, entries] = await Promise.all([list.filesOf(key), list.entries()])
      const { id, name } = titleOf(files)
      const label = entries.find((one) => one.key === key)?.name ?? id
      const made = copied(files, { id, name }, new Set(entries.map((one) => one.id)))
      const from = await originOf(key, files)
      const copy = {
        key: newKey(),
        files: made,
        label: `${label} (copy)`,
        changedAt: clock.now(),
        ...(from && { from }),
      }
      await then(own.change(copy.key, () => copy))
    }, itself),
    newPack: once(async (start) => {
      const [{ copied }, { titleOf }] = await Promise.all([load(), import('../../packs/files/title.ts')])
      const [{ texts }, sheets, entries] = await Promise.all([
        packStarts.load(start),
        packStarts.examples(start),
        list.entries(),
      ])
      const files = filesOf(texts, sheets)
      const title = titleOf(files)
      const taken = new Set(entries.map((one) => one.id))
      const made = taken.has(title.id) ? copied(files, title, taken) : files
      const pack = { key: newKey(), files: made, label: title.name, changedAt: clock.now() }
      await then(own.change(pack.key, () => pack))
      await editing.open(pack.key, 'procedures.yaml')
    }, itself),
    async renamePack(key, name) {
      const { retitled } = await load()
      await then(
        own.change(key, (there) => {
          const files = there && retitled(there.files, { name })
          return files ? { ...there, files, changedAt: Math.max(clock.now(), there.changedAt + 1) } : there
        }),
      )
    },
    deletePack: (key) => then(undo.put(key, undefined, (name) => `${name} was deleted.`)),
    undoPacks: () => then(undo.back()),
    async comparePacks(before, after) {
      const nameOf = (key: string) => store.getState().shelf.entries?.find((one) => one.key === key)?.name ?? key
      const [one, other] = await Promise.all([list.filesOf(before), list.filesOf(after)])
      await compare(one, other, [nameOf(before), nameOf(after)])
    },
    async showNewer(key) {
      const from = (await own.all()).find((one) => one.key === key)?.from
      const newer = store.getState().shelf.entries?.find((one) => one.key === key)?.newer
      if (!from || !newer) return
      const names = [`${newer.name}, version ${newer.before}`, `${newer.name}, version ${newer.version}`] as const
      await compare(from.files, await list.filesOf(from.id), names)
    },
    async settleNewer(key) {
      const from = (await own.all()).find((one) => one.key === key)?.from
      if (!from) return
      const now = await originOf(from.id, await list.filesOf(from.id))
      await then(own.change(key, (there) => there && now && { ...there, from: now }))
    },
    closeComparison: () => show({ compared: undefined }),
    exportPack: packed,
    showCards: (cards) => show({ cards }),
    async putTable(key, pasted) {
      const { withPastedTable } = await import('../../packs/paper/tablesFile.ts')
      const kept = (await list.filesOf(key))['tables.yaml'] ?? ''
      if (!withPastedTable(kept, pasted)) return false
      await editing.open(key, 'tables.yaml')
      const made = withPastedTable(store.getState().shelf.editing?.text ?? '', pasted)
      if (made) editing.write(made.text, `table ${made.name} put in`, made.at)
      return true
    },
    editFile: editing.open,
    changeFile: editing.change,
    writeFile: editing.write,
    undoFile: editing.takeBack,
    saveFile: editing.save,
    settleFile: (whose) => then(editing.settle(whose)),
    closeFile: () => then(editing.close()),
  }
}
