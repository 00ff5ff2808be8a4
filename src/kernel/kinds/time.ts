/** Times of day: four digits, hours and minutes. */

import { sayDigits } from '../numbers/say.ts'
import { asWritten, readCode, unsignedRun, writtenAs } from './codes.ts'
import type { TextKind } from './definition.ts'
import { affixTable } from './reading.ts'
import { digitStrings } from './shapes.ts'

export interface TimeSpec {
  readonly kind: 'time'
}

const AFFIXES = affixTable([
  [{ role: 'unit' }, ['hours', 'zulu', 'utc', 'local', 'z']],
  [{ role: 'noun' }, ['time']],
])
const CLOCK = /^([01]\d|2[0-3])[0-5]\d$/

export const time: TextKind<TimeSpec> = {
  values: 'text',
  fields: {},
  written: () => 'four digits, hours and minutes: "0935"',
  isWritten: writtenAs(CLOCK),
  tidied: (text) => text.trim(),
  canonical: asWritten,

  affixes: () => AFFIXES,
  nouns: ['time'],
  read: (tokens) =>
    unsignedRun(tokens, AFFIXES)?.numbers.flatMap((number) =>
      readCode(number, 4).map((reading) => {
        const text = String(reading.value)
        const standard = number.standard && number.style !== 'scaled'
        return { ...reading, standard, implausible: text.length === 4 && !CLOCK.test(text) }
      }),
    ) ?? [],
  say: (value, _, phraseology) => sayDigits(String(value), phraseology !== 'plain'),
  show: String,

  heard: {
    shapes: () => digitStrings(4),
    before: [],
    behind: ['zulu', 'hours'],
    openings: [],
    mostDigits: () => undefined,
    isWhole: (number) => number.digits >= 4,
    isOfOneLength: true,
    isSpelled: false,
  },
  mayBeCutShort: true,
  mistake: () => undefined,
  isReadBack: false,
}
