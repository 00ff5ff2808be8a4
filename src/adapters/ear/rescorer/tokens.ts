/** How the second model has learned to write what is said, and the tokens that it writes it with. */

import llamaTokenizer from 'llama-tokenizer-js'
import { capital } from '../../../kernel/capital.ts'
import { DIGIT_WORDS } from '../../../kernel/numbers/words.ts'
import type { WordTokens } from './beam.ts'

/** The model has hardly met the radio's names for digits. */
const PLAIN: Readonly<Record<string, string>> = { niner: 'nine', fife: 'five', tree: 'three', fower: 'four' }
const plain = (word: string) => (Object.hasOwn(PLAIN, word) ? (PLAIN[word] as string) : word)

/** In one breath, or word by word. */
export const STYLES = [' ', ', '] as const
export type Style = (typeof STYLES)[number]

/** Only digits are said word by word. */
export const isDigits = (text: string) => text.includes(' ') && text.split(' ').every((word) => DIGITS.has(word))
const DIGITS: ReadonlySet<string> = new Set([...DIGIT_WORDS, 'oh', ...Object.keys(PLAIN)])

export const written = (text: string, style: Style): string => `${capital(text.split(' ').map(plain).join(style))}.`

export const tokensOf = (text: string): readonly number[] => llamaTokenizer.encode(text, false, true)
export const textOf = (tokens: readonly number[]): string => llamaTokenizer.decode([...tokens], false, false).trim()

export const TOKEN_COUNT = 32_000
/** Tokens before this one are single bytes and signs. */
const FIRST_OF_WORDS = 259

/** Whether each token has a letter in it; made when it is first needed. */
let hasLetter: readonly boolean[] | undefined
export function isOfWord(token: number): boolean {
  hasLetter ??= Array.from({ length: TOKEN_COUNT }, (_, one) => one >= FIRST_OF_WORDS && /\p{L}/u.test(textOf([one])))
  return hasLetter[token] ?? false
}

const lastTokenOf = (text: string) => tokensOf(text).at(-1) as number
const known = new Map<string, readonly number[]>()
export const WORD_TOKENS: WordTokens = {
  begin: 1,
  end: 2,
  stop: lastTokenOf('one.'),
  comma: lastTokenOf('one,'),
  of(word, isFirst) {
    const text = isFirst ? capital(plain(word)) : plain(word)
    const tokens = known.get(text) ?? tokensOf(text)
    known.set(text, tokens)
    return tokens
  },
}
