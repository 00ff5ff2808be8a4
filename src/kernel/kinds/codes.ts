/** Codes: strings of so many digits, as several kinds read them. */

import type { NumberReading } from '../numbers/readings.ts'
import type { Token } from '../numbers/tokens.ts'
import { type Affixes, partRun, type Reading, type Run } from './reading.ts'
import type { Value } from './value.ts'

/** The words of a run without a sign, for kinds that are no amounts. */
export function unsignedRun(tokens: readonly Token[], affixes: Affixes): Run | undefined {
  const run = partRun(tokens, affixes)
  return run?.signs.length === 0 ? run : undefined
}

/** A whole thousand may be said as one even in a code: "four thousand". */
function isThousands(number: NumberReading): boolean {
  return number.style === 'scaled' && /000$/.test(number.whole)
}

/** Fewer digits lack some, more are too many. */
export function readCode(number: NumberReading, length: number): Reading[] {
  if (number.fraction !== undefined) return []
  const { whole, secondary } = number
  const standard = number.standard && (number.style !== 'scaled' || isThousands(number))
  const reading = { value: whole, digits: whole, standard, secondary }
  if (whole.length > length) return [{ ...reading, overlong: true }]
  return [whole.length < length ? { ...reading, lacks: 'digits' as const } : reading]
}

/** For texts that must be in quotes where they are written: a number has lost its zeros. */
export function writtenAs(pattern: RegExp): (value: Value) => boolean {
  return (value) => typeof value === 'string' && pattern.test(value)
}

/** Capitals, without spaces around them. */
export const capitals = (text: string): string => text.trim().toUpperCase()

/** For texts that are spoken alike only where they are written alike, capitals aside. */
export const asWritten = (value: Value): string => String(value).toUpperCase()
