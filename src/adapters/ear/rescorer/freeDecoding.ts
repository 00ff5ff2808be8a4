/**
 * What the second model hears where anything may be said: the likeliest token at each place. The log probability of the
 * whole says how sure the model is of it. Pure: the model is handed in.
 */

import type { TokenModel } from './beam.ts'

/** Tokens without the first and the last, and the natural logarithm of their probability with the last. */
export interface FreeDecoding {
  readonly tokens: readonly number[]
  readonly logProb: number
}

/**
 * `count` is the size of the vocabulary. The first token must be one that a word may begin with, by `isOfWord`: of a short
 * sound the model readily says that it is nothing.
 */
export async function decodeFreely(
  { tokens, step, longest }: TokenModel,
  count: number,
  isOfWord: (token: number) => boolean,
): Promise<FreeDecoding> {
  const written: number[] = []
  let logProb = 0
  let token = tokens.begin
  while (written.length < longest) {
    const [next] = await step([{ from: 0, token }])
    if (!next) break
    let best = Number.NEGATIVE_INFINITY
    for (let one = 0; one < count; one++) {
      if ((written.length === 0 && !isOfWord(one)) || next(one) <= best) continue
      token = one
      best = next(one)
    }
    logProb += best
    if (token === tokens.end) break
    written.push(token)
  }
  return { tokens: written, logProb }
}
