/** Codes of so many digits: transponder codes, stands. */

import { sayCardinal, sayDigits } from '../numbers/say.ts'
import { asWritten, readCode, unsignedRun } from './codes.ts'
import type { TextKind } from './definition.ts'
import { affixTable } from './reading.ts'
import { digitStrings } from './shapes.ts'

export interface DigitsSpec {
  readonly kind: 'digits'
  readonly length: number
}

const AFFIXES = affixTable([[{ role: 'noun' }, ['squawk', 'squawking', 'code']]])

export const digits: TextKind<DigitsSpec> = {
  values: 'text',
  fields: { length: { type: 'wholeNumber', min: 1, max: 8 } },
  written: ({ length }) => `${length} digits`,
  isWritten: (value, { length }) => new RegExp(`^\\d{${length}}$`).test(String(value)),
  tidied: (text) => text.trim(),
  canonical: asWritten,

  affixes: () => AFFIXES,
  nouns: ['squawk', 'squawking', 'transponder', 'code'],
  read: (tokens, { length }) =>
    unsignedRun(tokens, AFFIXES)?.numbers.flatMap((number) => readCode(number, length)) ?? [],
  say(value, _, phraseology) {
    const text = String(value)
    const radio = phraseology !== 'plain'
    return /^[1-9]000$/.test(text) && !radio ? sayCardinal(Number(text)) : sayDigits(text, radio)
  },
  show: String,

  heard: {
    shapes: ({ length }) => digitStrings(length),
    before: ['squawk', 'squawking'],
    behind: [],
    openings: [],
    mostDigits: ({ length }) => length,
    isWhole: (number, { length }) => number.digits >= length,
    isOfOneLength: true,
    isSpelled: false,
  },
  mayBeCutShort: true,
  mistake(value, { length }, chance) {
    const at = chance.below(length)
    return [...String(value)].map((digit, i) => (i === at ? String((Number(digit) + 1) % 10) : digit)).join('')
  },
  isReadBack: true,
}
