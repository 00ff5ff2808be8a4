/** Words of an answer, each with the state of the part that it was taken for. */

import type { ShownPart } from '../../../app/view/partsShown.ts'
import { partsOfWords, wordsIn } from '../../../kernel/response/wordsOf.ts'

export interface MarkedWord {
  readonly word: string
  readonly state: 'ok' | 'wrong' | 'plain'
}

/** A part that is missing, or has to be said again, marks nothing. */
export function markedWords(text: string, parts: readonly Pick<ShownPart, 'state' | 'heard'>[]): MarkedWord[] {
  const words = wordsIn(text)
  const marking = parts.filter(({ state }) => state === 'ok' || state === 'wrong')
  const taken = partsOfWords(words, marking)
  return words.map((word, at) => {
    const part = marking[taken[at] ?? -1]
    return { word, state: part?.state === 'ok' || part?.state === 'wrong' ? part.state : 'plain' }
  })
}
