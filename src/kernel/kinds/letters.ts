/** Letters by the ICAO alphabet, and names spelled in letters and digits: "alfa three". */

import { readNumber } from '../numbers/readings.ts'
import { sayDigits } from '../numbers/say.ts'
import type { Token } from '../numbers/tokens.ts'
import type { Affix, Affixes } from './reading.ts'

export const ALPHABET: Readonly<Record<string, readonly string[]>> = {
  A: ['alfa', 'alpha'],
  B: ['bravo'],
  C: ['charlie'],
  D: ['delta'],
  E: ['echo'],
  F: ['foxtrot'],
  G: ['golf'],
  H: ['hotel'],
  I: ['india'],
  J: ['juliett', 'juliet'],
  K: ['kilo'],
  L: ['lima'],
  M: ['mike'],
  N: ['november'],
  O: ['oscar'],
  P: ['papa'],
  Q: ['quebec'],
  R: ['romeo'],
  S: ['sierra'],
  T: ['tango'],
  U: ['uniform'],
  V: ['victor'],
  W: ['whiskey', 'whisky'],
  X: ['xray', 'x-ray'],
  Y: ['yankee'],
  Z: ['zulu'],
}

/** A letter by itself is tolerated outside standard phraseology; "o" stays a zero. */
export const LETTERS: Affixes = new Map(
  Object.entries(ALPHABET).flatMap(([letter, words]): (readonly [string, Affix])[] => {
    const affix: Affix = { role: 'letter', letter }
    const bare = letter === 'O' ? [] : [letter.toLowerCase()]
    return [...words, ...bare].map((word) => [word, affix] as const)
  }),
)

export interface Spelled {
  /** Capital letters and digits. */
  readonly text: string
  readonly standard: boolean
  readonly secondary: boolean
}

/**
 * Every way to write down letters and numbers in a row; none where another word stands among them. Whole hundreds
 * ("fourteen hundred") count only where `hundreds` allows them.
 */
export function readSpelled(tokens: readonly Token[], hundreds = false): readonly Spelled[] {
  let ways: readonly Spelled[] = [{ text: '', standard: true, secondary: false }]
  for (let i = 0; i < tokens.length; ) {
    const word = tokens[i]?.text ?? ''
    const affix = LETTERS.get(word)
    let end = i
    while (end < tokens.length && tokens[end]?.number && !LETTERS.has(tokens[end]?.text ?? '')) end++
    const next =
      affix?.role === 'letter' ? [letterSaid(affix.letter, word)] : numbersSaid(tokens.slice(i, end), hundreds)
    ways = ways.flatMap((head) => next.map((tail) => joined(head, tail)))
    if (ways.length === 0) return []
    i = affix ? i + 1 : end
  }
  return ways.filter(({ text }) => text !== '')
}

const letterSaid = (text: string, word: string): Spelled => ({ text, standard: word.length > 1, secondary: false })

function numbersSaid(tokens: readonly Token[], hundreds: boolean): Spelled[] {
  return readNumber(tokens).flatMap(({ whole, fraction, style, standard, secondary }) => {
    const isScaled = style === 'scaled'
    if (fraction !== undefined || (isScaled && !(hundreds && whole.endsWith('00')))) return []
    return [{ text: whole, standard: standard && !isScaled, secondary }]
  })
}

function joined(head: Spelled, tail: Spelled): Spelled {
  return {
    text: head.text + tail.text,
    standard: head.standard && tail.standard,
    secondary: head.secondary || tail.secondary,
  }
}

/** "A3" -> "alfa three"; other characters are left out. */
export function spell(text: string, radio: boolean): string {
  const words = [...text].map((each) => ALPHABET[each.toUpperCase()]?.[0] ?? sayDigits(each, radio))
  return words.filter((word) => word !== '').join(' ')
}
