/** How the weigher's model has learned to write what is said, and the pieces that it writes it with. */

import llamaTokenizer from 'llama-tokenizer-js'
import { DIGIT_WORDS } from '../../../kernel/numbers/words.ts'
import type { WordPieces } from './beam.ts'

/** The model has hardly met the radio's names of digits. */
const PLAIN: Readonly<Record<string, string>> = { niner: 'nine', fife: 'five', tree: 'three', fower: 'four' }

/** In one breath, or word by word. */
export const STYLES = [' ', ', '] as const
export type Style = (typeof STYLES)[number]
/** Only digits are said word by word. */
export const isDigits = (text: string) => text.includes(' ') && text.split(' ').every((word) => DIGITS.has(word))
const DIGITS: ReadonlySet<string> = new Set([...DIGIT_WORDS, 'oh', ...Object.keys(PLAIN)])

export function written(text: string, style: Style): string {
  const plain = text
    .split(' ')
    .map((word) => PLAIN[word] ?? word)
    .join(style)
  return `${capital(plain)}.`
}
const capital = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1)}`

export const piecesOf = (text: string): readonly number[] => llamaTokenizer.encode(text, false, true)
export const textOf = (pieces: readonly number[]): string => llamaTokenizer.decode([...pieces], false, false).trim()
export const PIECES = 32_000
/** Pieces before these are single bytes and signs. */
const FIRST_OF_WORDS = 259
/** Of each piece whether it has a letter in it. */
let inWords: readonly boolean[] | undefined
export function isOfWord(piece: number): boolean {
  inWords ??= Array.from({ length: PIECES }, (_, one) => one >= FIRST_OF_WORDS && /\p{L}/u.test(textOf([one])))
  return inWords[piece] ?? false
}
const lastPieceOf = (text: string) => piecesOf(text).at(-1) as number
const writings = new Map<string, readonly number[]>()
export const WORD_PIECES: WordPieces = {
  begin: 1,
  end: 2,
  stop: lastPieceOf('one.'),
  comma: lastPieceOf('one,'),
  of(word, isFirst) {
    const plain = PLAIN[word] ?? word
    const text = isFirst ? capital(plain) : plain
    const pieces = writings.get(text) ?? piecesOf(text)
    writings.set(text, pieces)
    return pieces
  },
}
