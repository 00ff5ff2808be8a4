/** What was said before a room, word by word, each group of words with what it was taken for. */

import type { Figure, Value } from '../../kernel/kinds/kind.ts'
import { showValue } from '../../kernel/kinds/table.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Part } from '../../kernel/response/model.ts'
import { partsOfWords, wordsIn } from '../../kernel/response/wordsOf.ts'

/** Words that were taken for one thing. */
export interface ReadWords {
  readonly words: readonly string[]
  readonly state: 'ok' | 'wrong' | 'missing' | 'doubt' | 'beside'
  /** The part, or what was made of words that are none: "let through". */
  readonly label: string
  /** The value or state read from them. */
  readonly read?: string
}

type Reading = Omit<ReadWords, 'words'>

/** `of`: what is told of a part, and, without one, of words that are none. */
export function readWords(text: string, parts: readonly Part[], of: (part: Part | undefined) => Reading): ReadWords[] {
  const words = wordsIn(text)
  const taken = partsOfWords(words, parts)
  const runs: { readonly part: number | undefined; readonly words: string[] }[] = []
  words.forEach((word, at) => {
    const last = runs.at(-1)
    if (last && last.part === taken[at]) last.words.push(word)
    else runs.push({ part: taken[at], words: [word] })
  })
  return runs.map((run) => ({ words: run.words, ...of(parts[run.part ?? -1]) }))
}

/** A figure's value as people write it. */
export function shownValue(pack: Pack, name: string, value: Value): string {
  const spec = pack.figures.declarations[name]?.spec
  return spec ? showValue({ ...spec, value } as Figure) : String(value)
}
