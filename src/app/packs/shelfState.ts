/** What the screen of packs shows. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Problem } from '../../kernel/problem.ts'
import type { Difference } from '../../packs/differences/differences.ts'
import type { PackTexts } from '../../packs/files/parts.ts'

export interface ShelfState {
  /** Undefined until they have been read. */
  readonly entries: readonly PackEntry[] | undefined
  /** Why something is kept only until the page closes; empty where all is kept. */
  readonly unkept: string
  /** What came of the last import: why it was refused, or what of it was not read. */
  readonly refused: string
  readonly told: readonly string[]
  /** An import with the id of a pack that is there. */
  readonly asked: (Compared & { readonly name: string; readonly there: string }) | undefined
  /** Two packs side by side, or two versions of one. */
  readonly compared: (Compared & { readonly before: string; readonly after: string }) | undefined
  /** A pack that came in a link, not taken yet. */
  readonly linked: LinkedPack | undefined
  /** What can be taken back: "Invented twin was deleted." */
  readonly undoable: string
  readonly editing: EditedFile | undefined
  /** The pack whose cards are on the screen, by its key. */
  readonly cards: string | undefined
}

export interface Compared {
  readonly differences: readonly Difference[]
}

export interface PackEntry {
  /** The pack's id where it came with the app, its key where it is one's own. */
  readonly key: string
  /** As the pack states it; empty where it cannot be read. */
  readonly id: string
  readonly isOwn: boolean
  readonly name: string
  readonly aircraft: string
  /** Empty where it cannot be read. */
  readonly version: string
  readonly lists: number
  /** Milliseconds since 1970; undefined for never. */
  readonly flownAt: number | undefined
  /** Undefined where it came with the app. */
  readonly changedAt: number | undefined
  /** Only where nothing is wrong with it. */
  readonly pack: Pack | undefined
  readonly problems: readonly Problem[]
  readonly paths: readonly string[]
  /** The pack that came with the app and that it was copied from is another one by now. */
  readonly newer: { readonly name: string; readonly version: string; readonly before: string } | undefined
}

export interface LinkedPack {
  /** As it states them, or empty. */
  readonly name: string
  readonly aircraft: string
  readonly version: string
  readonly lists: number
}

export interface EditedFile {
  readonly key: string
  readonly path: string
  /** As on the screen: lines end with a line feed. */
  readonly text: string
  /** The pack as it was last read or stored. */
  readonly files: PackTexts
  readonly isSaved: boolean
  /** Of the text as it was when it was last looked at, a moment ago; undefined before that. */
  readonly checked: { readonly pack: Pack | undefined; readonly problems: readonly Problem[] } | undefined
  /** What another tab has done meanwhile: it is not written over until the person says so. */
  readonly elsewhere: 'changed' | 'deleted' | undefined
  /** What a form or draft wrote last in this pack and stands there yet; empty where nothing can be taken back. */
  readonly undoable: string
  /** What was put in last and is to be seen, by its place in the text. */
  readonly at: number | undefined
}

export const EMPTY_SHELF: ShelfState = {
  entries: undefined,
  unkept: '',
  refused: '',
  told: [],
  asked: undefined,
  compared: undefined,
  linked: undefined,
  undoable: '',
  editing: undefined,
  cards: undefined,
}
