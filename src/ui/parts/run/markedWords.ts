/** Words of an answer, each with the state of the part that it was taken for. */

import type { ShownPart } from '../../../app/view/partsShown.ts'

export interface MarkedWord {
  readonly word: string
  readonly state: 'ok' | 'wrong' | 'plain'
}

const bare = (word: string) => word.toLowerCase().replace(/[^\p{L}\p{N}.'-]/gu, '')

/** A part whose words are not found as they stand marks nothing, nor does one that has to be said again. */
export function markedWords(text: string, parts: readonly Pick<ShownPart, 'state' | 'heard'>[]): MarkedWord[] {
  const words = text.split(/\s+/).filter((word) => word)
  const states: MarkedWord['state'][] = words.map(() => 'plain')
  for (const { state, heard } of parts) {
    const sought = heard?.split(/\s+/).map(bare) ?? []
    if (state === 'missing' || state === 'again' || sought.length === 0) continue
    const from = words.findIndex(
      (_, at) => sought.every((word, offset) => bare(words[at + offset] ?? '') === word) && states[at] === 'plain',
    )
    if (from >= 0) states.fill(state, from, from + sought.length)
  }
  return words.map((word, at) => ({ word, state: states[at] ?? 'plain' }))
}
