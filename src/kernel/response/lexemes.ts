/** What may begin at each token of a transmission: an element's own words, a name of a value, a courtesy, a number. */

import { isHomophone, isNumberToken, type Token } from '../numbers/tokens.ts'
import type { Cue } from './cues.ts'
import { HESITATIONS } from './lexicon.ts'
import { cueIn, isAt, type PlacePlan, phraseIn } from './placePlan.ts'
import { COURTESIES, GIVING_WAY, OF_OTHER_TRAFFIC } from './radioWords.ts'

/** Places that a phrase is about, and where it ends. */
export interface Named {
  readonly places: readonly number[]
  readonly end: number
}

export interface Lexeme {
  readonly token: Token
  /** Ends of what begins here; the token's own place where nothing does. */
  readonly correction: number
  readonly courtesy: number
  readonly cue: Cue | undefined
  readonly cueEnd: number
  readonly name: Named | undefined
  readonly lead: Named | undefined
  readonly follow: Named | undefined
  /** `letter`: of a route or a taxiway; `affix`: another word that some value may have. */
  readonly type: 'number' | 'sound' | 'letter' | 'affix' | 'word'
  /** Places in whose values it may stand, one bit each. */
  readonly mayBeIn: number
}

const courtesiesByFirst: ReadonlyMap<string, readonly (readonly string[])[]> = (() => {
  const table = new Map<string, (readonly string[])[]>()
  for (const words of COURTESIES) table.set(words[0] ?? '', [...(table.get(words[0] ?? '') ?? []), words])
  for (const list of table.values()) list.sort((one, other) => other.length - one.length)
  return table
})()

function courtesyEnd(plan: PlacePlan, tokens: readonly Token[], at: number): number {
  const text = tokens[at]?.text ?? ''
  if (HESITATIONS.has(text)) return at + 1
  const found = courtesiesByFirst.get(text)?.find((words) => isAt(words, tokens, at))
  // "Behind the landing traffic" may be what is read back.
  return Math.max(at + (found?.length ?? 0), isOwnWord(plan, text) ? at : trafficEnd(tokens, at))
}

/** "Give way to the one from the left": to the end of what is said of the other aircraft. */
function trafficEnd(tokens: readonly Token[], at: number): number {
  const lead = GIVING_WAY.find((words) => isAt(words, tokens, at))
  if (!lead) return at
  let end = at + lead.length
  while (OF_OTHER_TRAFFIC.has(tokens[end]?.text ?? '')) end++
  return end
}

export const isOwnWord = ({ vocabularies }: PlacePlan, text: string) => vocabularies.some((words) => words.has(text))

export function lexemesOf(plan: PlacePlan, tokens: readonly Token[]): readonly Lexeme[] {
  const named = (table: PlacePlan['names'], at: number): Named | undefined => {
    const found = phraseIn(table, tokens, at)
    return found && { places: found.places, end: at + found.words.length }
  }
  return tokens.map((token, at) => {
    const cue = cueIn(plan, tokens, at)
    return {
      ...{ token, cue, cueEnd: at + (cue?.words.length ?? 0) },
      correction: at + (isCorrection(plan, tokens, at) ? 1 : 0),
      courtesy: courtesyEnd(plan, tokens, at),
      name: named(plan.names, at),
      lead: named(plan.leads, at),
      follow: named(plan.follows, at),
      type: typeOf(plan, token, tokens[at + 1]),
      mayBeIn: token.number ? plan.numbersIn : (plan.standsIn.get(token.text) ?? 0),
    }
  })
}

/** Too weak to take back a value by themselves, unless another follows at once. */
export const WEAKLY_CORRECTING: ReadonlySet<string> = new Set(['no', 'wait', 'rather', 'actually'])

function isCorrection(plan: PlacePlan, tokens: readonly Token[], at: number): boolean {
  const [token, next] = [tokens[at] as Token, tokens[at + 1]]
  if (isOwnWord(plan, token.text)) return false
  if (token.text === 'correction') return true
  if (!WEAKLY_CORRECTING.has(token.text) || !next) return false
  return (
    isNumberToken(next) || plan.affixes.get(next.text) === 'letter' || cueIn(plan, tokens, at + 1)?.isValue === true
  )
}

function typeOf({ affixes }: PlacePlan, token: Token, next: Token | undefined): Lexeme['type'] {
  if (isHomophone(token)) return 'sound'
  if (isNumberToken(token)) return 'number'
  const role = affixes.get(token.text) ?? 'word'
  // "A" and "I" are words, if no letter or digit follows.
  const isWord = token.text === 'a' || token.text === 'i'
  return isWord && !(next && (isNumberToken(next) || affixes.get(next.text) === 'letter')) ? 'word' : role
}
