/**
 * Text as heard or typed -> tokens. Commas, full stops and case are not heard; numerals, signs and units that a
 * recogniser writes together ("5.2up", "FL350", "27L", "-5°") come apart; other scripts, and signs that make something else
 * of a number ("<1200", "28?"), stay as foreign tokens, which nothing reads.
 */

import { NUMBER_WORDS, type NumberWord } from './words.ts'

export interface Token {
  /** Lower case; digits for numerals. */
  readonly text: string
  readonly number: NumberWord | { readonly type: 'numeral'; readonly digits: string } | undefined
  /** What two texts are compared by: digit words and numerals are the same. */
  readonly canon: string
  /** Letters or digits of another script, or a sign beside a number: never harmless. */
  readonly foreign: boolean
  /** Place in the lower-case text. */
  readonly start: number
  readonly end: number
  /** A comma was typed between the number before it and this one. */
  readonly afterComma?: true
}

const PIECES =
  /(\d{1,2}:\d{2}(?!\d))|(\d{1,3}(?:,\d{3})+(?!\d)|\d+)|(\.)(?=\d)|([a-z]+(?:['’][a-z]+)*)|([-+−–](?=\.?\d)|(?<=^\s*)[-−–](?=\s+\.?\d))|([%°])|([\p{L}\p{N}\p{M}]+|[<>≤≥≠≈~±!✗✘✕✖❌](?=\s*[-+−–]?\.?\d)|(?<=\d\s*)[?*^×<>≤≥≠≈~✗✘✕✖❌]|(?<=\d)[-−–](?=\s*$))/gu
/** Prefixes that a hyphen does not separate from their word: "un-locked" is not "locked". */
const JOINED = new Set(['un', 'dis', 'non', 'de', 're', 'pre', 'mis', 'in', 'x'])
/** "Brake's set" is "brake is set"; these are words of their own. */
const KEPT_TOGETHER = new Set(
  "it's that's what's here's there's he's she's who's let's instructor's captain's officer's pilot's".split(' '),
)
/** The spelling alphabet, as others write it. */
const SPELLINGS: ReadonlyMap<string, string> = new Map([
  ['alpha', 'alfa'],
  ['juliet', 'juliett'],
])
/** More than any answer has. */
const MOST_TOKENS = 2000

function wordToken(text: string, start: number, end: number): Token {
  const number = NUMBER_WORDS.get(text)
  const isDigit = number?.type === 'digit' && (number.form === 'plain' || number.form === 'radio')
  const canon = isDigit ? number.digits : (SPELLINGS.get(text) ?? text)
  return { text, number, canon, foreign: false, start, end }
}

function numeral(digits: string, start: number, end: number): Token {
  return { text: digits, number: { type: 'numeral', digits }, canon: digits, foreign: false, start, end }
}

function isFree(text: string, at: number): boolean {
  const before = text[at - 1]
  return before === undefined || /[\s,;:(]/.test(before)
}

/** Tokens of a text. Never throws; a text longer than any answer is cut after `MOST_TOKENS` tokens. */
export function tokensOf(text: string): readonly Token[] {
  const lower = text.toLowerCase()
  const tokens: Token[] = []
  for (const match of lower.matchAll(PIECES)) {
    const [piece, clock, digits, dot, word, sign, unit] = match
    const start = match.index
    const end = start + piece.length
    const last = tokens.at(-1)
    if (clock !== undefined) tokens.push(numeral(clock.replace(':', ''), start, end))
    else if (digits !== undefined) tokens.push(numeral(digits.replaceAll(',', ''), start, end))
    else if (dot !== undefined)
      tokens.push({ text: '.', number: { type: 'point' }, canon: '.', foreign: false, start, end })
    else if (word !== undefined) {
      const plain = word.replaceAll('’', "'")
      if (last && last.end === start - 1 && lower[last.end] === '-' && JOINED.has(last.text)) {
        tokens[tokens.length - 1] = wordToken(last.text + plain, last.start, end)
      } else if (plain.endsWith("'s") && !KEPT_TOGETHER.has(plain)) {
        tokens.push(wordToken(plain.slice(0, -2), start, end - 2), wordToken('is', end - 2, end))
      } else tokens.push(wordToken(plain, start, end))
    } else if (sign !== undefined) {
      if (isFree(lower, start)) tokens.push(wordToken(sign === '+' ? 'plus' : 'minus', start, end))
    } else if (unit !== undefined) tokens.push(wordToken(unit === '%' ? 'percent' : 'degrees', start, end))
    else tokens.push({ text: piece, number: undefined, canon: piece, foreign: true, start, end })
    if (tokens.length >= MOST_TOKENS) break
  }
  return withHalves(withCommas(lower, tokens))
}

/** "Edition one, seventy two": where two numbers stand side by side, what was typed between them is kept. */
function withCommas(lower: string, tokens: readonly Token[]): readonly Token[] {
  return tokens.map((token, at) => {
    const before = tokens[at - 1]
    const isBetween = before && isNumberToken(before) && isNumberToken(token)
    return isBetween && /[,;]/.test(lower.slice(before.end, token.start)) ? { ...token, afterComma: true } : token
  })
}

/** "Two and a half" is two point five, "four and three tenths" four point three. */
function withHalves(tokens: readonly Token[]): readonly Token[] {
  if (!tokens.some(({ text }) => text === 'half' || text === 'tenths')) return tokens
  const isHalf = (at: number) =>
    tokens[at]?.text === 'and' && tokens[at + 1]?.text === 'a' && tokens[at + 2]?.text === 'half'
  const isCounted = (at: number) => ['digit', 'teen', 'tens', 'numeral'].includes(tokens[at]?.number?.type ?? '')
  const isTenths = (at: number) =>
    tokens[at]?.text === 'and' && tokens[at + 1]?.number?.type === 'digit' && tokens[at + 2]?.text === 'tenths'
  return tokens.flatMap((token, at): readonly Token[] => {
    if (isTenths(at) && isCounted(at - 1)) return [wordToken('point', token.start, token.end)]
    if (isTenths(at - 2) && isCounted(at - 3)) return []
    if (isHalf(at) && isCounted(at - 1)) return [wordToken('point', token.start, token.end)]
    if (isHalf(at - 1) && isCounted(at - 2)) return []
    return isHalf(at - 2) && isCounted(at - 3) ? [wordToken('five', token.start, token.end)] : [token]
  })
}

/** What was heard or typed, cut into tokens once. `tokens` may be only a part of the text; `start` and `end` are places in it. */
export interface Transcript {
  readonly text: string
  readonly tokens: readonly Token[]
}

export const transcriptOf = (text: string): Transcript => ({ text, tokens: tokensOf(text) })

/** What was typed between commas and full stops, each by itself; all of it where there are none. */
export function clausesOf({ text, tokens }: Transcript): readonly Transcript[] {
  const clauses: Token[][] = [[]]
  for (const [at, token] of tokens.entries()) {
    const before = tokens[at - 1]
    if (before && /[,;.!]\s/.test(text.slice(before.end, token.start))) clauses.push([])
    clauses.at(-1)?.push(token)
  }
  return clauses.map((own) => ({ text, tokens: own }))
}

/** The words of a transcript as they were heard or typed. */
export function textOf({ text, tokens: [first] }: Transcript): string {
  return first ? text.slice(first.start).trim() : ''
}

/** Two transcripts as one, the second after the first. */
export function joined(first: Transcript, second: Transcript): Transcript {
  const shift = first.text.length + 1
  const later = second.tokens.map((token) => ({ ...token, start: token.start + shift, end: token.end + shift }))
  return { text: `${first.text} ${second.text}`, tokens: [...first.tokens, ...later] }
}

/** True where the token is or may be part of a number; words that only sound like one are not. */
export function isNumberToken(token: Token): boolean {
  const { number } = token
  return number !== undefined && !(number.type === 'digit' && number.form === 'homophone')
}

export function isHomophone(token: Token): boolean {
  return token.number?.type === 'digit' && token.number.form === 'homophone'
}

/** "To", "too" and "for" are words in their own right; "won" and "ate" hardly ever are. */
export function isLittle(token: Token | undefined): boolean {
  return token?.text === 'to' || token?.text === 'for' || token?.text === 'too'
}

/** What it sounds like: "to" and "too" are "two". */
export function soundOf({ number, canon }: Token): string {
  return number?.type === 'digit' && number.form === 'homophone' ? number.digits : canon
}

/** Whether a word was said: "V1" for "V one". */
export function isWord({ text, canon, number }: Token, word: string): boolean {
  return text === word || (number?.type === 'numeral' && canon === NUMBER_WORDS_CANON.get(word))
}
const NUMBER_WORDS_CANON: ReadonlyMap<string, string> = new Map(
  [...NUMBER_WORDS.keys()].map((word) => [word, wordToken(word, 0, word.length).canon]),
)

/** Compared without spaces, so that "take off" is "takeoff" and "V1" is "V one". */
export function canonOf(tokens: readonly Token[]): string {
  return tokens.map((token) => token.canon).join('')
}
