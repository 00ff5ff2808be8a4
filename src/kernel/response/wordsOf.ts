/** Which words of an answer were taken for which part of it. */

import type { Part } from './model.ts'

const bare = (word: string) => word.toLowerCase().replace(/[^\p{L}\p{N}.'-]/gu, '')

export const wordsIn = (text: string): string[] => text.split(/\s+/).filter((word) => word)

/** For each word the place of its part among `parts`; undefined for a word that stands beside, or whose part is not found as it stands. */
export function partsOfWords(
  words: readonly string[],
  parts: readonly { readonly heard?: Part['heard'] | undefined }[],
): readonly (number | undefined)[] {
  const taken: (number | undefined)[] = words.map(() => undefined)
  parts.forEach(({ heard }, place) => {
    const sought = wordsIn(heard ?? '').map(bare)
    if (sought.length === 0) return
    const from = words.findIndex((_, at) =>
      sought.every((word, offset) => bare(words[at + offset] ?? '') === word && taken[at + offset] === undefined),
    )
    if (from >= 0) taken.fill(place, from, from + sought.length)
  })
  return taken
}
