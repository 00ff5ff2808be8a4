/**
 * Whose value each number of a transmission is. All ways to give the numbers to the elements are tried, and what each
 * needs to be taken so is counted: a number right after its name needs nothing, a bare one its kind's form and its turn,
 * one after another's name a lot. The way that needs least is meant, where it is the only one. Names, kinds, forms and
 * places decide, and never a value (law 2): there is none here.
 */

import type { Token } from '../numbers/tokens.ts'
import { isOwnWord, type Lexeme, lexemesOf } from './lexemes.ts'
import type { PlacePlan } from './placePlan.ts'
import { fromCue, fromName } from './placingNames.ts'
import { fromPieces, overMinutes } from './placingPieces.ts'
import {
  add,
  after,
  bestOf,
  CLOSE,
  COSTS,
  LONGEST,
  MOST_PLACES,
  type PlacingOptions,
  type Said,
  type Search,
  START,
  saidIn,
  unnamed,
  type Way,
} from './placingWays.ts'
import { isSpoiled } from './spoiled.ts'

/** What was said; `stray` where a number in it is nobody's, undefined where nobody can be certain. */
export function placed(
  plan: PlacePlan,
  tokens: readonly Token[],
  options: PlacingOptions,
): readonly Said[] | 'stray' | undefined {
  if (tokens.length === 0 || tokens.length > LONGEST || plan.places.length > MOST_PLACES) return undefined
  if (isSpoiled(tokens, (word) => isOwnWord(plan, word), options.mayBeBare)) return undefined
  const lexemes = lexemesOf(plan, tokens)
  const ways = Array.from({ length: tokens.length + 1 }, () => new Map<string, Way>())
  const search = { ...options, plan, tokens, lexemes, ways, forms: new Map(), ...bodyOf(lexemes) }
  ways[0]?.set('', START)
  for (let at = 0; at < tokens.length; at++) for (const way of bestOf(ways[at])) goOn(search, way, at)
  const [best, ...others] = bestOf(ways[tokens.length])
  if (best?.hasStray) return 'stray'
  if (!best || best.isDoubtful || best.correcting) return undefined
  const isOnly = others.every((other) => other.cost - best.cost >= CLOSE || other.signature === best.signature)
  return isOnly ? saidIn(unnamed(search, best)) : undefined
}

function bodyOf(lexemes: readonly Lexeme[]): { begin: number; end: number } {
  let begin = 0
  while ((lexemes[begin]?.courtesy ?? 0) > begin) begin = lexemes[begin]?.courtesy as number
  let end = lexemes.length
  for (let at = end - 1; at >= 0; at--) if (lexemes[at]?.courtesy === end) end = at
  return { begin, end }
}

function goOn(search: Search, way: Way, at: number): void {
  const { lexemes, tokens } = search
  const { token, correction, courtesy, cue, cueEnd, name, lead, type } = lexemes[at] as Lexeme
  if (correction > at) {
    const next = { ...after(way, { type: 'correction', token }), correcting: true, named: undefined, names: [] }
    add(search, correction, way.last ? next : way)
    return
  }
  const nameEnd = name?.end ?? at
  const longest = Math.max(cueEnd, nameEnd)
  if (courtesy > longest && courtesy > at + 1) {
    add(search, courtesy, { ...way, hinted: undefined })
    return
  }
  if (cue && cueEnd >= nameEnd) fromCue(search, way, at, nameEnd === cueEnd ? (name?.places ?? []) : [])
  else if (name) fromName(search, way, at, nameEnd, name.places)
  const isLed = lead !== undefined && lead.end > longest
  if (isLed) add(search, lead.end, { ...way, hinted: lead.places, names: [...way.names, tokens.slice(at, lead.end)] })
  if (token.text === 'in') overMinutes(search, way, at + 1, true)
  if (type !== 'word' && !(type === 'letter' && nameEnd > at + 1)) fromPieces(search, way, at)
  if (isLed || (longest > at && type !== 'number')) return
  if (courtesy > at) add(search, courtesy, { ...way, names: [...way.names, tokens.slice(at, courtesy)] })
  else if (type === 'number' || type === 'letter') {
    const next = after(way, { type: 'other', token })
    add(search, at + 1, { ...next, cost: way.cost + COSTS.unplaced, hasStray: true })
  } else add(search, at + 1, { ...after(way, { type: 'other', token }), cost: way.cost + COSTS.unknownWord })
}
