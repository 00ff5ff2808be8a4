/** Whether two hearings of one utterance say the same. Stricter than judging: only little words may differ. */

import { tokensOf } from '../../../kernel/numbers/tokens.ts'

/** Sounds and joints that change nothing, whichever side of a state or a number they stand on. */
const LITTLE: ReadonlySet<string> = new Set(['and', 'the', 'a'])
/** Digits by any of their names are one; so are the words for the decimal point. */
const canonical = (text: string): string[] =>
  tokensOf(text).map(({ canon, number }) => {
    if (number?.type === 'point') return '.'
    return number?.type === 'digit' && number.form !== 'homophone' ? number.digits : canon
  })

/** True where both texts hold the same words in the same order, little ones aside. */
export function sameWords(one: string, other: string): boolean {
  return said(one).join(' ') === said(other).join(' ')
}

/**
 * True where half of the words are the same, and as many are said: of words all, for one of them may be "not"; beside a
 * number those of the number, so that a digit that is lost or doubled is never near.
 */
export function nearlySameWords(one: string, other: string): boolean {
  const [a, b] = [one, other].map((text) => numberWords(text).length)
  const isAsLong = a === 0 || b === 0 ? said(one).length === said(other).length : a === b
  return isAsLong && shareInCommon(one, other) >= NEAR
}
const NEAR = 0.5

/** Whether a number is said in it. */
export const hasNumber = (text: string): boolean => numberWords(text).length > 0

const numberWords = (text: string) => tokensOf(text).filter(({ number }) => number !== undefined)

const said = (text: string) => canonical(text).filter((word) => !LITTLE.has(word))

/** Longest common run of words in order, as a share of the longer text; 1 for the same text. */
export function shareInCommon(one: string, other: string): number {
  const [a, b] = [canonical(one), canonical(other)]
  const longest = Math.max(a.length, b.length)
  if (longest === 0) return 0
  let row = new Array<number>(b.length + 1).fill(0)
  for (const word of a) {
    const next = [0]
    for (const [index, against] of b.entries()) {
      const kept = Math.max(row[index + 1] ?? 0, next[index] ?? 0)
      next.push(word === against ? Math.max(kept, (row[index] ?? 0) + 1) : kept)
    }
    row = next
  }
  return (row[b.length] ?? 0) / longest
}
