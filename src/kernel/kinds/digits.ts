/** Codes of so many digits: transponder codes, stands. */

import { sayCardinal, sayDigits } from '../numbers/say.ts'
import { asWritten, readCode, unsignedRun } from './codes.ts'
import type { TextKind } from './definition.ts'
import { affixTable } from './reading.ts'
import { digitStrings } from './shapes.ts'

export interface DigitsSpec {
  readonly kind: 'digits'
  readonly length: number
  /** The highest digit there is, 9 where it is not said: 7 for transponder codes, which are octal. */
  readonly highest?: number
}

/** A digit that the code cannot have. */
const isOver = (text: string, { highest = 9 }: DigitsSpec) => [...text].some((digit) => Number(digit) > highest)

const AFFIXES = affixTable([[{ role: 'noun' }, ['squawk', 'squawking', 'code']]])

export const digits: TextKind<DigitsSpec> = {
  values: 'text',
  fields: {
    length: { type: 'wholeNumber', min: 1, max: 8 },
    highest: {
      type: 'wholeNumber',
      min: 1,
      max: 9,
      optional: true,
      about: 'The highest digit: 7 for a transponder code',
    },
  },
  written: ({ length, highest = 9 }) => (highest < 9 ? `${length} digits from 0 to ${highest}` : `${length} digits`),
  isWritten: (value, spec) => new RegExp(`^\\d{${spec.length}}$`).test(String(value)) && !isOver(String(value), spec),
  tidied: (text) => text.trim(),
  canonical: asWritten,

  affixes: () => AFFIXES,
  nouns: ['squawk', 'squawking', 'transponder', 'code'],
  read(tokens, spec) {
    const readings = unsignedRun(tokens, AFFIXES)?.numbers.flatMap((number) => readCode(number, spec.length)) ?? []
    return readings.map((reading) =>
      isOver(String(reading.value), spec) ? { ...reading, implausible: true } : reading,
    )
  },
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
  mistake(value, { length, highest = 9 }, chance) {
    const at = chance.below(length)
    return [...String(value)]
      .map((digit, i) => (i === at ? String((Number(digit) + 1) % (highest + 1)) : digit))
      .join('')
  },
  isReadBack: true,
}
