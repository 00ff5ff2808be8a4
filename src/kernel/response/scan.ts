/**
 * Tokens -> atoms: the answer cut into what each stretch of words is for a scene. Phrases of the item go first, then
 * numbers, then words that change nothing; whatever is left over is `unknown`, and an answer with that is not accepted.
 */

import { joinsNumber } from '../kinds/reading.ts'
import { isHomophone, isLittle, isNumberToken, type Token } from '../numbers/tokens.ts'
import { HARMLESS, HARMLESS_PHRASES, HESITATIONS, isNegation, isStateWord, LEADING_TO } from './lexicon.ts'
import { optionEnd } from './options.ts'
import { hasRole, isValueToken, type KnownPhrase, rolesOf, type Scene } from './scene.ts'

export type Atom =
  | {
      readonly type: 'run'
      readonly tokens: readonly Token[]
      readonly looseHead: boolean
      readonly looseTail: boolean
    }
  | { readonly type: 'phrase'; readonly known: KnownPhrase; readonly tokens: readonly Token[]; readonly near: boolean }
  | { readonly type: 'not'; readonly token: Token }
  /** The word "negative" inside an answer: neither a sign nor harmless. */
  | { readonly type: 'refusal'; readonly token: Token }
  /** Words of a command inside an answer. */
  | { readonly type: 'command'; readonly tokens: readonly Token[] }
  | { readonly type: 'unknown'; readonly token: Token; readonly amount: boolean }

/** May stand between the words of one phrase: "brakes are set". */
const SKIPPED = new Set(['is', 'are', 'the', 'a', 'and', 'both'])
/** Near words are looked for only so often in one answer. */
const MOST_NEAR = 24

const COMMAND_PHRASES: readonly (readonly string[])[] = [
  ['say', 'again'],
  ['stand', 'by'],
  ['standby'],
  ['continue'],
  ['go', 'ahead'],
  ['go', 'on'],
  ['confirm'],
  ['what', 'is', 'left'],
  ["what's", 'left'],
  ['go', 'back', 'one'],
  ['go', 'back'],
  ['from', 'the', 'top'],
]

/** Cuts an answer without the challenge; hesitations are taken out first, unless they are the item's own words. */
export function scan(scene: Scene, heard: readonly Token[]): readonly Atom[] {
  const spoken = heard.filter((token) => !HESITATIONS.has(token.text) || scene.vocabulary.has(token.text))
  const own = spoken.map(({ canon }) => canon)
  const canons = nearCanons(scene, spoken)
  const atoms: Atom[] = []
  for (let i = 0; i < spoken.length; ) {
    const exact = phraseAt(scene, spoken, own, i)
    const alike = phraseAt(scene, spoken, canons, i)
    // A longer wording in near words goes before a part of it in its own.
    const near = alike !== undefined && alike.end > (exact?.end ?? i)
    const phrase = near ? alike : exact
    const option = namedOptionEnd(scene, spoken, i)
    if (option > (phrase?.end ?? i)) {
      atoms.push({ type: 'run', tokens: spoken.slice(i, option), looseHead: false, looseTail: false })
      i = option
      continue
    }
    if (phrase) {
      const tokens = spoken.slice(i, phrase.end)
      atoms.push({ type: 'phrase', known: phrase.known, tokens, near })
      i = phrase.end
      continue
    }
    const end = scene.figureCount > 0 ? runEnd(scene, spoken, canons, i) : i
    if (end > i) {
      atoms.push(runOf(spoken, i, end))
      i = end
      continue
    }
    const next = plainAtom(scene, spoken, i)
    if (next.atom) atoms.push(next.atom)
    i = next.end
  }
  return atoms
}

/** What each token is compared by: itself, or the item's word that it is near to. */
function nearCanons(scene: Scene, tokens: readonly Token[]): readonly string[] {
  let looked = 0
  return tokens.map((token) => {
    if (token.number || token.foreign || scene.vocabulary.has(token.text)) return token.canon
    const misheard = scene.nearer.misheard(token.text)
    if (misheard !== undefined) return misheard
    if (isKnown(scene, token) || looked >= MOST_NEAR) return token.canon
    looked++
    return scene.nearer.near(token.text) ?? token.canon
  })
}

function isKnown(scene: Scene, { text }: Token): boolean {
  return isNegation(text) || isStateWord(text) || isHarmless(scene, text)
}

function isHarmless(scene: Scene, text: string): boolean {
  return HARMLESS.has(text) || scene.harmless.has(text)
}

function phraseAt(scene: Scene, tokens: readonly Token[], canons: readonly string[], at: number) {
  for (const known of scene.phrases.get(canons[at]?.[0] ?? '') ?? []) {
    const end = matchEnd(known.phrase.canon, tokens, canons, at)
    if (end > at) return { known, end }
  }
  return undefined
}

/** End of a phrase that begins at `at`, or `at`. */
function matchEnd(canon: string, tokens: readonly Token[], canons: readonly string[], at: number): number {
  let done = 0
  for (let i = at; i < tokens.length; i++) {
    const own = canons[i] ?? ''
    if (canon.startsWith(own, done) && own !== '') {
      done += own.length
      if (done === canon.length) return i + 1
    } else if (i === at || !SKIPPED.has(own)) return at
  }
  return at
}

/** End of a position said by its name; a word of it that may stand beside another value is left to that one. */
function namedOptionEnd(scene: Scene, tokens: readonly Token[], at: number): number {
  const end = optionEnd(scene.specs, tokens, at)
  return end === at + 1 && rolesOf(scene, tokens[at] as Token).length > 0 ? at : end
}

function isRunToken(scene: Scene, token: Token, after: Token | undefined): boolean {
  if (isNumberToken(token)) return true
  // The article and the pilot are letters only right before digits and letters or at the end: "A3", "A B".
  if (
    (token.text === 'a' || token.text === 'i') &&
    after &&
    !isNumberToken(after) &&
    !hasRole(scene, after, 'letter')
  ) {
    return false
  }
  return isValueToken(scene, token)
}

/** End of the words that only join two pieces of a value ("via", "at"), where they do so here; `at` where they do not. */
function jointEnd(scene: Scene, tokens: readonly Token[], canons: readonly string[], at: number): number {
  let end = at
  let to: 'letter' | 'number' | undefined
  for (;;) {
    const role = tokens[end] && rolesOf(scene, tokens[end] as Token).find((each) => each.role === 'joint')
    if (role?.role !== 'joint') break
    to ??= role.to
    end++
    if (phraseAt(scene, tokens, canons, end)) return at
  }
  const next = tokens[end]
  if (!next || to === undefined) return at
  return (to === 'number' ? isNumberToken(next) : hasRole(scene, next, 'letter')) ? end : at
}

/** The label of the only figure, said again between two pieces of it: "via alfa via bravo". */
function goesOn(scene: Scene, token: Token): boolean {
  return hasRole(scene, token, 'joint') && scene.figureCount === 1
}

/** End of the run of number and value words that begins at `at`, or `at`. */
function runEnd(scene: Scene, tokens: readonly Token[], canons: readonly string[], at: number): number {
  let end = at
  while (end < tokens.length) {
    const token = tokens[end] as Token
    if (end > at && !goesOn(scene, token) && phraseAt(scene, tokens, canons, end)) break
    if (token.number?.type === 'amount') break
    if (end > at && namedOptionEnd(scene, tokens, end) > end) break
    if (hasRole(scene, token, 'joint')) {
      const joint = end > at ? jointEnd(scene, tokens, canons, end) : end
      if (joint === end) break
      end = joint
      continue
    }
    if (end > at && hasRole(scene, token, 'name') && !hasRole(scene, tokens[end - 1] as Token, 'name')) break
    if (isRunToken(scene, token, tokens[end + 1])) end++
    else if (isHomophone(token) && standsInNumber(tokens, at, end)) end++
    else if (joinsNumber(token) && joinsHere(tokens, end)) end++
    else break
  }
  return end
}

/** A word that sounds like a digit is one between digits, behind them at the end, and before them. */
function standsInNumber(tokens: readonly Token[], begin: number, at: number): boolean {
  const before = at > begin ? tokens[at - 1] : undefined
  const after = tokens[at + 1]
  const next = after !== undefined && (isNumberToken(after) || isHomophone(after))
  if (before && (isNumberToken(before) || isHomophone(before))) {
    return next || !isLittle(tokens[at]) || startOf(HARMLESS_PHRASES, tokens, at) === 0
  }
  if (isLittle(tokens[at]) && LEADING_TO.has(tokens[at - 1]?.text ?? '')) return false
  return next || !isLittle(tokens[at])
}

/** "And" joins only behind hundred or thousand, "a" only before them. */
function joinsHere(tokens: readonly Token[], at: number): boolean {
  const scale = (token: Token | undefined) => token?.number?.type === 'hundred' || token?.number?.type === 'thousand'
  if (tokens[at]?.text === 'a') return scale(tokens[at + 1])
  const after = tokens[at + 1]
  return scale(tokens[at - 1]) && after !== undefined && isNumberToken(after)
}

function runOf(tokens: readonly Token[], begin: number, end: number): Atom {
  const run = tokens.slice(begin, end)
  const looseTail = run.length > 1 && isLittle(run.at(-1)) && tokens[end] !== undefined
  return { type: 'run', tokens: run, looseHead: isLittle(run[0]) && run.length > 1, looseTail }
}

/** What is neither a phrase of the item nor a number: one atom, or none where it changes nothing. */
function plainAtom(scene: Scene, tokens: readonly Token[], at: number): { atom?: Atom; end: number } {
  const token = tokens[at] as Token
  const command = startOf(COMMAND_PHRASES, tokens, at)
  const harmless = startOf(HARMLESS_PHRASES, tokens, at)
  if (harmless > command) return { end: at + harmless }
  if (command > 0) return { atom: { type: 'command', tokens: tokens.slice(at, at + command) }, end: at + command }
  const end = at + 1
  if (token.text === 'negative') return { atom: { type: 'refusal', token }, end }
  if (isNegation(token.text)) return { atom: { type: 'not', token }, end }
  if (token.number && !isHomophone(token)) return { atom: { type: 'unknown', token, amount: true }, end }
  if (isHarmless(scene, token.text)) return { end }
  if (isLittle(token)) return { end }
  return { atom: { type: 'unknown', token, amount: token.number !== undefined || token.foreign }, end }
}

function startOf(phrases: readonly (readonly string[])[], tokens: readonly Token[], at: number): number {
  const found = phrases.find((words) => words.every((word, i) => tokens[at + i]?.text === word))
  return found?.length ?? 0
}
