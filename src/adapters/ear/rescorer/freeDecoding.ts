/**
 * What the weigher hears where anything may be said: word by word the likeliest. How likely all of it is tells how sure
 * the weigher is of it. Pure: the model is handed in.
 */

import type { Beam } from './beam.ts'

/** Its pieces, without the first and the last, and the natural logarithm of their probability with the last. */
export interface Free {
  readonly pieces: readonly number[]
  readonly weight: number
}

/** `count` pieces there are; `isWord` says of which a word may be the beginning: the model readily says nothing of what is short. */
export async function freely(
  { pieces, go, longest }: Beam,
  count: number,
  isWord: (piece: number) => boolean,
): Promise<Free> {
  const said: number[] = []
  let weight = 0
  let piece = pieces.begin
  while (said.length < longest) {
    const [next] = await go([{ from: 0, piece }])
    if (!next) break
    let likelihood = Number.NEGATIVE_INFINITY
    for (let one = 0; one < count; one++) {
      if ((said.length === 0 && !isWord(one)) || next(one) <= likelihood) continue
      piece = one
      likelihood = next(one)
    }
    weight += likelihood
    if (piece === pieces.end) break
    said.push(piece)
  }
  return { pieces: said, weight }
}
