/** A unit that only one element of a transmission has says whose its number is: "two hundred knots" is a speed, and no level of 200 feet. */

import { kindOf, type Specs } from '../kinds/kind.ts'
import { affixesOf } from '../kinds/table.ts'
import { isNumberToken, type Token, tokensOf } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import type { SpokenElement } from './spokenElement.ts'

/** Levels are told by their own words; a speed without its name is what is taken for one. */
const TOLD_BY_UNIT: ReadonlySet<string> = new Set(['speed'])

/** With the name of the kind before each number that has such a unit behind it, and no name before it. */
export function withUnitLabels(
  elements: readonly SpokenElement[],
  specs: Specs,
  tokens: readonly Token[],
): readonly Token[] {
  const all = elements.flatMap(({ response }) => response.figures.flatMap((name) => ownOf(specs, name) ?? []))
  const units = all.flatMap((spec) =>
    TOLD_BY_UNIT.has(spec.kind)
      ? [...affixesOf(spec)].flatMap(([word, { role }]) => (role === 'unit' ? [{ word, spec }] : []))
      : [],
  )
  const owners = new Set(units.map(({ spec }) => spec))
  // Of two speeds, or beside a wind, the unit tells nothing.
  const [owner] = owners
  if (!owner || owners.size > 1 || all.some(({ kind }) => kind === 'wind')) return tokens
  const words = new Set(units.map(({ word }) => word))
  const nouns = kindOf(owner).nouns
  const [label] = tokensOf(nouns[0] ?? '')
  return tokens.flatMap((token, at): Token[] => {
    const end = endOfNumber(tokens, at)
    const isUnit = end > at && words.has(tokens[end]?.text ?? '')
    const isNamed = nouns.includes(tokens[at - 1]?.text ?? '')
    return label && isUnit && !isNamed ? [{ ...label, start: token.start, end: token.start }, token] : [token]
  })
}

/** Behind the last token of a number that begins here; the place itself where none begins. */
function endOfNumber(tokens: readonly Token[], at: number): number {
  const [first, before] = [tokens[at], tokens[at - 1]]
  if (!first || !isNumberToken(first)) return at
  if (before && isNumberToken(before) && !first.afterComma) return at
  let end = at + 1
  for (let next = tokens[end]; next && isNumberToken(next) && !next.afterComma; next = tokens[end]) end += 1
  return end
}
