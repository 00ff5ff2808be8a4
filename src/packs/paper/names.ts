/** Names from words on paper: as they are spoken, and as ids of a pack. */

import { quoted } from '../../kernel/quoted.ts'
import { isUsable } from '../yamlNodes.ts'
import { NAMES_SAID, SAID_AS_WORDS, SHORT_FORMS, SPELLED, UNCLEAR } from './answerWords.ts'

export interface Spoken {
  readonly text: string
  readonly doubts: readonly string[]
}

const UNITS_SAID: ReadonlyMap<string, string> = new Map([
  ['kt', 'knots'],
  ['kts', 'knots'],
  ['kg', 'kilograms'],
  ['kgs', 'kilograms'],
  ['lb', 'pounds'],
  ['lbs', 'pounds'],
  ['ft', 'feet'],
])

/** Letters of a challenge or a name at most; more is a sentence. */
const LONGEST_NAME = 120

/** In small letters, letters of short forms apart; what cannot be said as it stands is asked. */
export function spoken(written: string): Spoken {
  const doubts: string[] = []
  const made: string[] = []
  const tight = written.replaceAll(' / ', '/')
  for (const word of tight.replace(/["#]/g, ' ').split(' ').filter(Boolean)) made.push(spokenWord(word, doubts))
  const text = made.join(' ').replace(/&/g, 'and')
  if (text.length <= LONGEST_NAME) return { text, doubts }
  return {
    text: text.slice(0, LONGEST_NAME).trim(),
    doubts: [...doubts, `only the first ${LONGEST_NAME} letters are said; shorten it`],
  }
}

function spokenWord(word: string, doubts: string[]): string {
  const bare = word.replace(/[.,;:]$/, '')
  const mark = word.slice(bare.length).replace(/[.;:]/, '')
  const low = bare.toLowerCase()
  const short = SHORT_FORMS.get(low)
  if (short !== undefined) {
    doubts.push(`${quoted(bare)} is said ${quoted(short)}`)
    return short + mark
  }
  if (bare.includes('/')) {
    const parts = bare.split('/').filter(Boolean)
    if (parts.length > 1)
      doubts.push(`${quoted(bare)}: how is it said? Written ${quoted(parts.join(', ').toLowerCase())}`)
    return parts.map((part) => spokenWord(part, doubts)).join(', ') + mark
  }
  const name = NAMES_SAID.get(low)
  if (name !== undefined) return name + mark
  const measure = UNITS_SAID.get(low)
  if (measure !== undefined) return measure + mark
  if (SPELLED.has(low)) return [...low.toUpperCase()].join(' ') + mark
  if (SAID_AS_WORDS.has(low)) return low + mark
  if (/\d/.test(bare)) return bare + mark
  const letters = low.replace(/[^\p{L}]/gu, '')
  const hasVowel = /[aeiouy\u0080-\uffff]/.test(letters)
  if (UNCLEAR.has(low) || (letters.length > 1 && !hasVowel) || (word.endsWith('.') && bare.length < 6)) {
    doubts.push(`${quoted(bare)} looks like a short form; write it as it is said`)
  }
  return low + mark
}

/** Words that YAML takes for values. */
const NO_NAMES = new Set(['null', 'true', 'false', 'yes', 'no', 'on', 'off', 'y', 'n'])

/** An id that nothing else has yet: "Takeoff trim" -> takeoffTrim. `taken` holds them in small letters. */
export function idFrom(text: string, taken: Set<string>, otherwise: string): string {
  const words = text
    .normalize('NFD')
    .replace(/[^A-Za-z0-9 ]/g, (sign) => (/[\p{M}']/u.test(sign) ? '' : ' '))
    .split(' ')
    .filter(Boolean)
  const joined = words
    .slice(0, 6)
    .map((word, index) =>
      index === 0 ? word.toLowerCase() : word.charAt(0).toUpperCase() + word.slice(1).toLowerCase(),
    )
    .join('')
    .slice(0, 40)
  const begun = /^[A-Za-z]/.test(joined) ? joined : joined === '' ? otherwise : `${otherwise}${joined}`
  const name = isUsable(begun) && !NO_NAMES.has(begun.toLowerCase()) ? begun : `${begun}Item`
  return counted(name, taken)
}

/** The id itself, or with a number behind it where something has it already. `taken` holds them in small letters. */
export function counted(name: string, taken: Set<string>): string {
  for (let count = 1; ; count++) {
    const one = count === 1 ? name : `${name}${/\d$/.test(name) ? 'n' : ''}${count}`
    if (taken.has(one.toLowerCase())) continue
    taken.add(one.toLowerCase())
    return one
  }
}
