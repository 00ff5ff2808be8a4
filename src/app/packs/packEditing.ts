/**
 * One file of one's own pack, being edited: saved a moment after each change, and never over what another tab has made
 * of it since.
 */

import type { PackTexts } from '../../packs/files/parts.ts'
import type { Clock, OwnPack } from '../../ports.ts'
import type { Store } from '../store.ts'
import type { OwnPacks } from './ownPacks.ts'
import type { EditedFile } from './shelfState.ts'
import { standing, takenBack, type Writing, withWriting } from './writtenUndo.ts'

/** After the last key: long enough for a word, short enough that nothing is lost that one remembers. */
const REST_MS = 150

/** What is wrong is shown earlier: behind the keys of one word, but before anybody looks up. */
export const CHECK_MS = 30

export interface PackEditing {
  open(key: string, path: string): Promise<void>
  change(text: string): void
  /** By a form or a draft: `words` say what, and it can be taken back from any file of the pack; `at` is to be seen. */
  write(text: string, words: string, at?: number): void
  /** The last that was written so, in its own file. */
  takeBack(): Promise<void>
  /** At once, what would be saved in a moment. */
  save(): Promise<void>
  /** What is on the screen takes the place of what another tab made of it, or makes room for it. */
  settle(whose: 'mine' | 'theirs'): Promise<void>
  close(): Promise<void>
  /** Another tab has changed something. */
  reread(): Promise<void>
}

export interface PackEditingParts {
  readonly store: Store
  readonly own: OwnPacks
  readonly clock: Clock
  /** The list may show it now. */
  readonly saved: () => Promise<void>
}

export function createPackEditing({ store, own, clock, saved }: PackEditingParts): PackEditing {
  /** The pack as it was when last read or written. */
  let known: OwnPack | undefined
  let stop = () => {}
  let stopCheck = () => {}
  /** Saving waits for saving: each begins with what the last one left. */
  let saving = Promise.resolve()
  /** What was written into the pack with this key. */
  let written: { readonly key: string; readonly past: readonly Writing[] } = { key: '', past: [] }

  const editing = () => store.getState().shelf.editing
  const show = (editing: EditedFile | undefined) => store.setState(({ shelf }) => ({ shelf: { ...shelf, editing } }))
  const read = async (key: string) => (await own.all()).find((one) => one.key === key)

  function showAsKept(pack: OwnPack, path: string): void {
    known = pack
    const text = shownOf(textOf(pack.files, path))
    if (written.key !== pack.key) written = { key: pack.key, past: [] }
    show({
      key: pack.key,
      path,
      text,
      files: pack.files,
      isSaved: true,
      checked: undefined,
      elsewhere: undefined,
      undoable: undoableIn(pack.files, path, text),
      at: undefined,
    })
  }

  /** What was written into the pack and stands there yet. */
  function stepsIn(files: PackTexts, path: string, text: string): readonly Writing[] {
    return standing(written.past, (at) => (at === path ? text : shownOf(textOf(files, at))))
  }

  function undoableIn(files: PackTexts, path: string, text: string): string {
    return stepsIn(files, path, text).at(-1)?.words ?? ''
  }

  function change(text: string): void {
    const now = editing()
    if (!now || now.text === text) return
    show({ ...now, text, undoable: undoableIn(now.files, now.path, text), isSaved: false })
    stop()
    stop = clock.after(REST_MS, () => void save())
    stopCheck()
    stopCheck = clock.after(CHECK_MS, () => void check())
  }

  async function check(): Promise<void> {
    const now = editing()
    if (!now) return
    const { inspect } = await import('../../packs/files/inspect.ts')
    const files = withText(now.files, now.path, asBefore(textOf(now.files, now.path), now.text))
    const { pack, problems } = await inspect(files)
    const after = editing()
    if (after?.key === now.key && after.path === now.path && after.text === now.text) {
      show({ ...after, checked: { pack, problems } })
    }
  }

  async function openFile(key: string, path: string): Promise<void> {
    await save()
    // What clashes stays until the person has said which it is to be.
    if (editing()?.elsewhere) return
    const pack = await read(key)
    if (pack) showAsKept(pack, path)
    else show(undefined)
  }

  function save(): Promise<void> {
    stop()
    saving = saving.then(saveNow)
    return saving
  }

  async function saveNow(): Promise<void> {
    const now = editing()
    if (!now || now.isSaved || now.elsewhere || !known) return
    const { key, path, text } = now
    const base = textOf(known.files, path)
    const next = asBefore(base, text)
    const outcome: { elsewhere?: EditedFile['elsewhere']; pack?: OwnPack } = {}
    await own.change(key, (there) => {
      const theirs = there && textOf(there.files, path)
      outcome.elsewhere = theirs === undefined ? 'deleted' : theirs === base || theirs === next ? undefined : 'changed'
      if (!there || outcome.elsewhere) return there
      outcome.pack = { ...there, files: withText(there.files, path, next), changedAt: laterThan(there, clock.now()) }
      return outcome.pack
    })
    known = outcome.pack ?? known
    const after = editing()
    if (after?.key === key && after.path === path) {
      const isSaved = !outcome.elsewhere && after.text === text
      show({ ...after, files: known.files, isSaved, elsewhere: outcome.elsewhere })
    }
    await saved()
  }

  return {
    save,
    open: openFile,
    change,
    write(text, words, at) {
      const now = editing()
      if (!now || now.text === text) return
      const { key, path } = now
      const past = withWriting(written.past, { path, before: now.text, after: text, words })
      written = { key, past }
      change(text)
      const after = editing()
      if (after && at !== undefined) show({ ...after, at })
    },
    async takeBack() {
      const now = editing()
      if (!now || now.key !== written.key) return
      const past = stepsIn(now.files, now.path, now.text)
      const last = past.at(-1)
      if (!last) return
      if (now.path !== last.path) await openFile(now.key, last.path)
      const open = editing()
      const text = open?.path === last.path ? takenBack(open.text, last) : undefined
      if (text === undefined) return
      written = { ...written, past: past.slice(0, -1) }
      change(text)
    },
    async settle(whose) {
      const now = editing()
      if (!now?.elsewhere || !known) return
      const { key, path } = now
      const there = await read(key)
      if (whose === 'theirs') return there ? showAsKept(there, path) : show(undefined)
      const before = known
      if (!there) await own.change(key, (again) => again ?? before)
      known = there ?? before
      show({ ...now, isSaved: false, elsewhere: undefined })
      await save()
    },
    async close() {
      await save()
      if (!editing()?.elsewhere) show(undefined)
    },
    async reread() {
      const now = editing()
      if (!now) return
      if (!now.isSaved) return save()
      const there = await read(now.key)
      // The person may have typed meanwhile.
      if (editing() !== now) return
      if (!there) show({ ...now, isSaved: false, elsewhere: 'deleted' })
      else if (known && textOf(there.files, now.path) !== textOf(known.files, now.path)) showAsKept(there, now.path)
    },
  }
}

function textOf(files: PackTexts, path: string): string {
  return files[path] ?? ''
}

/** A file that was emptied is no part of the pack any more. */
function withText(files: PackTexts, path: string, text: string): PackTexts {
  const { [path]: _, ...others } = files
  return text === '' ? others : { ...files, [path]: text }
}

/** Each edition has a time of its own, also where a clock was put back. */
function laterThan({ changedAt }: OwnPack, now: number): number {
  return Math.max(now, changedAt + 1)
}

/** Fields of a page know line feeds alone. */
function shownOf(text: string): string {
  return text.replace(/\r\n?/g, '\n')
}

/** With the line ends that the file had: one changed line is to be one changed line. */
function asBefore(before: string, text: string): string {
  return /\r\n/.test(before) ? text.replace(/\n/g, '\r\n') : text
}
