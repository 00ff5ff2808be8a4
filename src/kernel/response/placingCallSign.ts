/** The own call sign among the numbers of a transmission, in full or short. */

import { readNumber } from '../numbers/readings.ts'
import { isLittle, type Token } from '../numbers/tokens.ts'
import { COSTS, claim, isOpen, LONGEST_FLIGHT, type Search, type Way } from './placingWays.ts'

/** A designator and as many digits as the own flight number has. */
export function callSign(search: Search, way: Way, at: number, begin: number, place: number): void {
  const { tokens, callSignLength = LONGEST_FLIGHT } = search
  let end = begin
  for (let to = begin + 1; to <= tokens.length && isCharacter(tokens[to - 1] as Token); to++) {
    if (charactersOf(tokens.slice(begin, to)) > callSignLength) break
    end = to
  }
  while (tokens[end]?.text === 'heavy' || tokens[end]?.text === 'super') end++
  claim(search, way, place, tokens.slice(at, end), end, 0)
}

const CHARACTERS: ReadonlySet<string> = new Set(['digit', 'teen', 'tens', 'numeral', 'hundred'])
const isCharacter = (token: Token) =>
  token.number !== undefined && CHARACTERS.has(token.number.type) && !isLittle(token)
const charactersOf = (tokens: readonly Token[]) => readNumber(tokens)[0]?.whole.length ?? 0

/** A bare number at either end that has the length of the own flight number. */
export function shortCallSign(search: Search, way: Way, at: number): void {
  const { plan, tokens, callSignLength, begin, end: last, mayBeBare } = search
  if (plan.callSign === undefined || callSignLength === undefined || callSignLength < 2) return
  if (way.named || !isOpen(search, way, plan.callSign)) return
  for (let end = at + 1; end <= tokens.length && isCharacter(tokens[end - 1] as Token); end++) {
    // In a call it may follow the station's name: "ground, it's four two one".
    const isFirst = at === begin || (mayBeBare && !tokens.slice(0, at).some(({ number }) => number !== undefined))
    if (!isFirst && end !== last) continue
    const piece = tokens.slice(at, end)
    if (charactersOf(piece) === callSignLength) claim(search, way, plan.callSign, piece, end, COSTS.callSignAlone)
  }
}
