/** Identifiers (information letters, stands, single taxiways) and routes, which are several taxiways in their order. */

import type { Token } from '../numbers/tokens.ts'
import type { IdentifierSpec, Phraseology, Value } from './kind.ts'
import { LETTERS, readSpelled, spell } from './letters.ts'
import type { Affix, Affixes, Match, Reading } from './reading.ts'

export function identifierAffixes(): Affixes {
  return LETTERS
}

/** No stand has more digits; a letter before a longer number belongs to something else. */
const MOST_DIGITS = 3

export function readIdentifier(tokens: readonly Token[], spec: IdentifierSpec): readonly Reading[] {
  // Digits behind a letter that stands alone belong to another value: "information kilo, one zero one zero".
  const isLetter = (text: string) => spec.form !== 'letter' || /^[A-Z]+$/.test(text)
  const ways = readSpelled(tokens).filter(({ text, secondary }) => !secondary && isLetter(text))
  return ways.map(({ text, standard }) => {
    const digits = text.length - text.replace(/\d+$/, '').length
    const isLong = spec.form === 'letter' ? text.length > 1 : digits > MOST_DIGITS
    return { value: text, standard, ...(isLong && { overlong: true }) }
  })
}

export function sayIdentifier(value: Value, phraseology: Phraseology): string {
  return spell(String(value), phraseology !== 'plain')
}

/** One or two letters, then up to two digits or one more letter: A, A3, AB, AB12, A3B. */
const TAXIWAY = /[A-Z]{1,2}\d{0,2}[A-Z]?/
const ROUTE = new RegExp(`^${TAXIWAY.source}([ ,]+${TAXIWAY.source})*$`)
/** As heard, where one element ends is not to be told: each letter begins one. */
const HEARD_ROUTE = /^([A-Z]\d{0,2})+$/

const ROUTE_WORDS: Affixes = new Map<string, Affix>([
  ...LETTERS,
  ...['via', 'taxiway', 'taxiways', 'then', 'and'].map((word): [string, Affix] => [
    word,
    { role: 'joint', to: 'letter' },
  ]),
])

export function routeAffixes(): Affixes {
  return ROUTE_WORDS
}

export const ROUTE_LIKE = 'taxiways in their order, each one or two letters with a number or a letter: "A3 B C1"'

export function isRoute(value: Value): boolean {
  return ROUTE.test(String(value).trim())
}

const isJoint = (token: Token) => ROUTE_WORDS.get(token.text)?.role === 'joint'

export function readRoute(tokens: readonly Token[]): readonly Reading[] {
  const spoken = tokens.filter((token) => !isJoint(token))
  // "Alfa and three" is no taxiway.
  if (tokens.some((token, i) => isJoint(token) && tokens[i + 1]?.number)) return []
  return readSpelled(spoken).flatMap(({ text, standard, secondary }) => {
    if (!HEARD_ROUTE.test(text)) return []
    return [{ value: (text.match(/[A-Z]\d*/g) ?? []).join(' '), standard, secondary }]
  })
}

/** Two routes are spoken alike where their characters are: "A B" and "AB" cannot be told apart. */
export function routeCharacters(value: Value): string {
  return String(value)
    .toUpperCase()
    .replace(/[^A-Z0-9]/g, '')
}

/** A route of fewer taxiways is another route, not a part of this one: nothing tells it from one that is whole. */
export function matchRoute(expected: Value, { value }: Reading): Match {
  return routeCharacters(value) === routeCharacters(expected) ? 'same' : 'other'
}

export function sayRoute(value: Value, phraseology: Phraseology): string {
  return spell(routeCharacters(value), phraseology !== 'plain')
}

export function showRoute(value: Value): string {
  return String(value).toUpperCase().trim().replace(/[ ,]+/g, ' ')
}
