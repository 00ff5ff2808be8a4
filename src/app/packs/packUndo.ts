/** Takes back the last thing that took a pack away: its deletion, or another edition put in its place. */

import type { OwnPack } from '../../ports.ts'
import type { OwnPacks } from './ownPacks.ts'

export interface Undo {
  /** Puts this under the key, or nothing; `words` from the name of what was there make what the screen says. */
  put(key: string, pack: OwnPack | undefined, words: (name: string) => string): Promise<void>
  /** Where another tab has put something else there since, both are kept. */
  back(): Promise<void>
  /** A pack of this id has come in anew: bringing back its deleted one would make two of it. */
  replaced(id: string): Promise<void>
}

interface UndoParts {
  readonly own: OwnPacks
  readonly newKey: () => string
  /** Says what can be taken back; empty where nothing can. */
  readonly tell: (words: string) => void
}

export function createUndo({ own, newKey, tell }: UndoParts): Undo {
  let last: { readonly before: OwnPack; readonly after: OwnPack | undefined } | undefined

  return {
    async put(key, pack, words) {
      const { titleOf } = await import('../../packs/files/title.ts')
      let before: OwnPack | undefined
      await own.change(key, (there) => {
        before = there
        return pack
      })
      // Gone already: a second click must not take the way back.
      if (!before) return
      last = { before, after: pack }
      tell(words(titleOf(before.files).name || before.label))
    },
    async replaced(id) {
      if (!last || last.after) return
      const { titleOf } = await import('../../packs/files/title.ts')
      if (!last || titleOf(last.before.files).id !== id) return
      last = undefined
      tell('')
    },
    async back() {
      if (!last) return
      const { before, after } = last
      last = undefined
      tell('')
      let isBack = false
      await own.change(before.key, (there) => {
        isBack = there?.changedAt === after?.changedAt
        return isBack ? before : there
      })
      if (isBack) return
      const key = newKey()
      await own.change(key, () => ({ ...before, key }))
    },
  }
}
