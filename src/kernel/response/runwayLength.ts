/**
 * "Runway two four two thousand metres": the length behind a runway is no part of it. Where it begins follows from the
 * forms of both alone; where more than one cut is possible, nothing is cut, and nothing is taken for a runway.
 */

import type { KindSpec } from '../kinds/kind.ts'
import { readValue } from '../kinds/table.ts'
import { readNumber } from '../numbers/readings.ts'
import { isNumberToken, type Token } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'

/** No runway is longer, or so short. */
const LENGTHS: Readonly<Record<string, { readonly min: number; readonly max: number }>> = {
  ...Object.fromEntries(['meters', 'metres'].map((unit) => [unit, { min: 300, max: 6_000 }])),
  ...Object.fromEntries(['feet', 'ft'].map((unit) => [unit, { min: 1_000, max: 20_000 }])),
}
const RUNWAY: KindSpec = { kind: 'runway' }

/** `behind`: the word that follows these; only a unit of length makes a number a length. */
export function withoutLength(tokens: readonly Token[], behind: Token | undefined): readonly Token[] {
  const range = behind && ownOf(LENGTHS, behind.text)
  if (!range) return tokens
  const begin = tokens.findLastIndex((token) => !isNumberToken(token)) + 1
  const isLength = (rest: readonly Token[]) =>
    readNumber(rest).some(
      ({ whole, fraction, secondary }) =>
        !secondary && fraction === undefined && !whole.startsWith('0') && +whole >= range.min && +whole <= range.max,
    )
  const isRunway = (value: readonly Token[]) => readValue(value, RUNWAY).some(({ secondary }) => !secondary)
  const cuts = tokens
    .map((_, at) => at)
    .filter((at) => at >= begin && isLength(tokens.slice(at)))
    .filter((at) => (at > begin ? isRunway(tokens.slice(begin, at)) : tokens.slice(0, begin).some(isNumberToken)))
  return cuts.length === 1 ? tokens.slice(0, cuts[0]) : tokens
}
