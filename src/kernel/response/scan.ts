/**
 * Tokens -> atoms: an answer cut into what its words mean to a frame. Phrases of the item come first, then numbers, then
 * words that change nothing. Whatever is left is `unknown`, and an answer with that in it is not accepted.
 */

import { joinsNumber } from '../kinds/reading.ts'
import { isHomophone, isLittle, isNumberToken, type Token } from '../numbers/tokens.ts'
import { type Frame, hasRole, isValueToken, rolesOf } from './frame.ts'
import type { KnownPhrase } from './framePhrases.ts'
import { HARMLESS, HESITATIONS, isNegation, isStateWord, LEADING_TO, NAMES_OF_NUMBERS } from './lexicon.ts'
import { optionEnd } from './options.ts'
import type { Phrase } from './path.ts'
import { remarkPhraseAt } from './remarkPhrases.ts'

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
  /** Words that change nothing. */
  | { readonly type: 'harmless'; readonly tokens: readonly Token[] }

export type RunAtom = Extract<Atom, { type: 'run' }>
export type PhraseAtom = Extract<Atom, { type: 'phrase' }>

/** The word of an atom that is one word, else nothing. */
export function wordOf(atom: Atom | undefined): string {
  if (!atom) return ''
  if ('token' in atom) return atom.token.text
  return atom.tokens.length === 1 ? (atom.tokens[0]?.text ?? '') : ''
}

export const isPlain = (atom: Atom | undefined): boolean => atom?.type === 'unknown' || atom?.type === 'harmless'

/** Where the atom before this one stands, "the" apart. */
export const beforeArticle = (atoms: readonly Atom[], at: number): number =>
  wordOf(atoms[at - 1]) === 'the' ? at - 2 : at - 1

/** May stand between the words of one phrase: "brakes are set". */
const SKIPPED = new Set(['is', 'are', 'the', 'a', 'and', 'both', "i'm", "we're"])
/** How many words of one answer are compared with near ones at most. */
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

/** What was said before, between and after words of correction. */
export function attemptsIn(body: readonly Token[]): readonly (readonly Token[])[] {
  const attempts: Token[][] = [[]]
  for (const token of body) {
    if (token.text === 'correction') attempts.push([])
    else attempts.at(-1)?.push(token)
  }
  return attempts
}

/** Cuts an answer, which is free of the challenge, and leaves out what changes nothing. */
export function scan(frame: Frame, heard: readonly Token[]): readonly Atom[] {
  return scanAll(frame, heard).filter(({ type }) => type !== 'harmless')
}

/** The same with harmless words in their places. Hesitations are dropped, unless they are words of the item. */
export function scanAll(frame: Frame, heard: readonly Token[]): readonly Atom[] {
  const spoken = heard.filter((token) => !HESITATIONS.has(token.text) || frame.vocabulary.has(token.text))
  const own = spoken.map(({ canon }) => canon)
  const canons = nearCanons(frame, spoken)
  const atoms: Atom[] = []
  for (let i = 0; i < spoken.length; ) {
    const exact = phraseAt(frame, spoken, own, i)
    const alike = phraseAt(frame, spoken, canons, i)
    // A longer wording with near words beats a shorter exact one.
    const near = alike !== undefined && alike.end > (exact?.end ?? i)
    const phrase = near ? alike : exact
    const option = namedOptionEnd(frame, spoken, i)
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
    // "Zero fuel is", "O A T": what is asked for, and no number.
    const name = spoken[i]?.number ? startOf(frame.names, spoken, i) : 0
    if (name > 1) {
      atoms.push({ type: 'harmless', tokens: spoken.slice(i, i + name) })
      i += name
      continue
    }
    const end = frame.figureCount > 0 ? runEnd(frame, spoken, canons, i) : i
    if (end > i) {
      atoms.push(runOf(spoken, i, end))
      i = end
      continue
    }
    const next = plainAtom(frame, spoken, i)
    atoms.push(next.atom)
    i = next.end
  }
  return atoms
}

/** What each token is compared by: itself, or the item's word that it is near. */
function nearCanons(frame: Frame, tokens: readonly Token[]): readonly string[] {
  let looked = 0
  return tokens.map((token) => {
    if (token.number || token.foreign || frame.vocabulary.has(token.text)) return token.canon
    const misheard = frame.nearWords.misheard(token.text)
    if (misheard !== undefined) return misheard
    if (isKnown(frame, token) || looked >= MOST_NEAR) return token.canon
    looked++
    return frame.nearWords.near(token.text) ?? token.canon
  })
}

function isKnown(frame: Frame, { text }: Token): boolean {
  return isNegation(text) || isStateWord(text) || isHarmless(frame, text)
}

function isHarmless(frame: Frame, text: string): boolean {
  return HARMLESS.has(text) || frame.harmless.has(text)
}

/** "Gens", "mag": the beginning of a word of the item. */
function isShort(frame: Frame, text: string): boolean {
  const stem = text.length > 3 && text.endsWith('s') ? text.slice(0, -1) : text
  if (stem.length < 3 || isStateWord(text) || isNegation(text)) return false
  return [...frame.harmless].some((word) => word.length > stem.length + 2 && word.startsWith(stem))
}

function phraseAt(frame: Frame, tokens: readonly Token[], canons: readonly string[], at: number) {
  for (const known of frame.phrases.get(canons[at]?.[0] ?? '') ?? []) {
    const end = matchEnd(known.phrase, tokens, canons, at)
    if (end > at) return { known, end }
  }
  return undefined
}

/** End of the phrase that begins at `at`; `at` where it does not. */
function matchEnd({ canon, words }: Phrase, tokens: readonly Token[], canons: readonly string[], at: number): number {
  let done = 0
  for (let i = at; i < tokens.length; i++) {
    const own = canons[i] ?? ''
    // "Y D is engaged" is not "disengaged".
    const isWithin = own === 'is' && !words.includes('is')
    if (canon.startsWith(own, done) && own !== '' && !isWithin) {
      done += own.length
      if (done === canon.length) return i + 1
    } else if (i === at || !SKIPPED.has(own) || words.length === 1) return at
  }
  return at
}

/** End of an option said by its name. A single word that may belong to another value's number is left to that. */
function namedOptionEnd(frame: Frame, tokens: readonly Token[], at: number): number {
  const end = optionEnd(frame.specs, tokens, at)
  return end === at + 1 && rolesOf(frame, tokens[at] as Token).length > 0 ? at : end
}

function isRunToken(frame: Frame, token: Token, after: Token | undefined): boolean {
  if (isNumberToken(token)) return true
  // "A" and "I" are letters only before digits or letters, or at the end: "A3", "A B".
  if (
    (token.text === 'a' || token.text === 'i') &&
    after &&
    !isNumberToken(after) &&
    !hasRole(frame, after, 'letter')
  ) {
    return false
  }
  return isValueToken(frame, token)
}

/** End of words that join two pieces of a value ("via", "at"); `at` where they join nothing here. */
function jointEnd(frame: Frame, tokens: readonly Token[], canons: readonly string[], at: number): number {
  let end = at
  let to: 'letter' | 'number' | undefined
  for (;;) {
    const role = tokens[end] && rolesOf(frame, tokens[end] as Token).find((each) => each.role === 'joint')
    if (role?.role !== 'joint') break
    to ??= role.to
    end++
    if (phraseAt(frame, tokens, canons, end)) return at
  }
  const next = tokens[end]
  if (!next || to === undefined) return at
  return (to === 'number' ? isNumberToken(next) : hasRole(frame, next, 'letter')) ? end : at
}

/** The label of the only figure, repeated between two pieces of it: "via alfa via bravo". */
function goesOn(frame: Frame, token: Token): boolean {
  return hasRole(frame, token, 'joint') && frame.figureCount === 1
}

/** End of the run of number and value words that begins at `at`; `at` where none does. */
function runEnd(frame: Frame, tokens: readonly Token[], canons: readonly string[], at: number): number {
  let end = at
  while (end < tokens.length) {
    const token = tokens[end] as Token
    if (end > at && !goesOn(frame, token) && phraseAt(frame, tokens, canons, end)) break
    if (token.number?.type === 'amount' || (end > at && beginsAnother(frame, tokens, end))) break
    if (end > at && namedOptionEnd(frame, tokens, end) > end) break
    if (hasRole(frame, token, 'joint')) {
      const joint = end > at ? jointEnd(frame, tokens, canons, end) : end
      if (joint === end) break
      end = joint
      continue
    }
    if (end > at && hasRole(frame, token, 'name') && !hasRole(frame, tokens[end - 1] as Token, 'name')) break
    if (isRunToken(frame, token, tokens[end + 1])) end++
    else if (isHomophone(token) && standsInNumber(tokens, at, end)) end++
    else if (joinsNumber(token) && joinsHere(tokens, end)) end++
    else break
  }
  return end
}

/** After a comma the next of several values begins, unless that is within one: "five thousand, six hundred". */
function beginsAnother({ figureCount }: Frame, tokens: readonly Token[], at: number): boolean {
  const before = tokens[at - 1]?.number?.type
  return figureCount > 1 && tokens[at]?.afterComma === true && before !== 'thousand' && before !== 'hundred'
}

const GOVERNED: ReadonlySet<string> = new Set('the this that a an my your our his her their us me you'.split(' '))

/** A word that sounds like a digit is one before, between and after digits. */
function standsInNumber(tokens: readonly Token[], begin: number, at: number): boolean {
  const before = at > begin ? tokens[at - 1] : undefined
  const after = tokens[at + 1]
  // "Eighty one for this weight", "one forty four for v two".
  if (isLittle(tokens[at]) && GOVERNED.has(after?.text ?? '')) return false
  const next = after !== undefined && (isNumberToken(after) || isHomophone(after))
  if (before && (isNumberToken(before) || isHomophone(before))) {
    return next || !isLittle(tokens[at]) || remarkPhraseAt(tokens, at) === 0
  }
  if (isLittle(tokens[at]) && LEADING_TO.has(tokens[at - 1]?.text ?? '')) return false
  return next || !isLittle(tokens[at])
}

/** "And" joins only after hundred or thousand, "a" only before them. */
function joinsHere(tokens: readonly Token[], at: number): boolean {
  const scale = (token: Token | undefined) => token?.number?.type === 'hundred' || token?.number?.type === 'thousand'
  if (tokens[at]?.text === 'a') return scale(tokens[at + 1])
  const after = tokens[at + 1]
  return scale(tokens[at - 1]) && after !== undefined && isNumberToken(after)
}

function runOf(tokens: readonly Token[], begin: number, end: number): Atom {
  const run = tokens.slice(begin, end)
  const looseTail = run.length > 1 && isLittle(run.at(-1)) && tokens[end] !== undefined
  const isNamed = NAMES_OF_NUMBERS.has(tokens[begin - 1]?.text ?? '')
  return { type: 'run', tokens: run, looseHead: isLittle(run[0]) && run.length > 1 && !isNamed, looseTail }
}

/** The atom of a word that is neither a phrase of the item nor a number. */
function plainAtom(frame: Frame, tokens: readonly Token[], at: number): { atom: Atom; end: number } {
  const token = tokens[at] as Token
  const commanding = startOf(COMMAND_PHRASES, tokens, at)
  // "Standby altimeter?": a word of what is asked for commands nothing.
  const isAsked = commanding > 0 && tokens.slice(at, at + commanding).every(({ text }) => frame.asked.has(text))
  const command = isAsked ? 0 : commanding
  const harmless = Math.max(remarkPhraseAt(tokens, at), startOf(frame.names, tokens, at))
  const plain = (count: number) => ({
    atom: { type: 'harmless', tokens: tokens.slice(at, at + count) } as const,
    end: at + count,
  })
  if (isAsked || harmless > command) return plain(Math.max(harmless, commanding))
  if (command > 0) return { atom: { type: 'command', tokens: tokens.slice(at, at + command) }, end: at + command }
  const end = at + 1
  if (token.text === 'negative') return { atom: { type: 'refusal', token }, end }
  if (isNegation(token.text)) return { atom: { type: 'not', token }, end }
  if (token.number && !isHomophone(token)) return { atom: { type: 'unknown', token, amount: true }, end }
  if (isHarmless(frame, token.text) || isLittle(token) || isShort(frame, token.text)) return plain(1)
  return { atom: { type: 'unknown', token, amount: token.number !== undefined || token.foreign }, end }
}

function startOf(phrases: readonly (readonly string[])[], tokens: readonly Token[], at: number): number {
  const found = phrases.find((words) => words.every((word, i) => tokens[at + i]?.text === word))
  return found?.length ?? 0
}
