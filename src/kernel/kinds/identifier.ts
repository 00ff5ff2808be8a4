/** Identifiers in letters and digits: information letters, stands, holding points, single taxiways. */

import { asWritten, capitals, writtenAs } from './codes.ts'
import type { TextKind } from './definition.ts'
import { LETTERS, readSpelled, spell } from './letters.ts'
import { after, TWIN } from './shapes.ts'
import { otherTaxiway } from './taxiways.ts'

export interface IdentifierSpec {
  readonly kind: 'identifier'
  /** One letter, as of an information broadcast; letters and digits where it is left out. */
  readonly form?: 'letter'
}

const isLetter = writtenAs(/^[A-Z]$/)
const isLettersAndDigits = writtenAs(/^[A-Z0-9]+$/)

/** No stand has more digits; a letter before a longer number belongs to something else. */
const MOST_DIGITS = 3
/** Behind a letter: A3, A12. */
const NUMBERED = ['d', ...TWIN]

export const identifier: TextKind<IdentifierSpec> = {
  values: 'text',
  fields: { form: { type: 'oneOf', values: ['letter'], optional: true } },
  written: ({ form }) => (form === 'letter' ? 'one letter: "K"' : 'letters and digits: "A3"'),
  isWritten: (value, { form }) => (form === 'letter' ? isLetter : isLettersAndDigits)(value),
  tidied: capitals,
  canonical: asWritten,

  affixes: () => LETTERS,
  nouns: ['information', 'taxiway', 'stand', 'gate', 'point', 'holding'],
  read(tokens, { form }) {
    // Digits behind a letter that stands alone belong to another value: "information kilo, one zero one zero".
    const isAsked = (text: string) => form !== 'letter' || /^[A-Z]+$/.test(text)
    const ways = readSpelled(tokens).filter(({ text, secondary }) => !secondary && isAsked(text))
    return ways.map(({ text, standard }) => {
      const digits = text.length - text.replace(/\d+$/, '').length
      const isLong = form === 'letter' ? text.length > 1 : digits > MOST_DIGITS
      return { value: text, standard, ...(isLong && { overlong: true }) }
    })
  },
  say: (value, _, phraseology) => spell(String(value), phraseology !== 'plain'),
  show: String,

  heard: {
    shapes: ({ form }) => (form === 'letter' ? ['l'] : ['l', 'll', ...after(['l', 'll', ''], NUMBERED), 'ldl']),
    before: ['information', 'taxiway', 'stand', 'gate'],
    behind: [],
    openings: [],
    mostDigits: () => undefined,
    isWhole: () => true,
    isOfOneLength: false,
    isSpelled: true,
  },
  mayBeCutShort: false,
  mistake: (value, { form }, chance) => (form === 'letter' ? undefined : otherTaxiway(String(value), chance)),
  isReadBack: false,
}
