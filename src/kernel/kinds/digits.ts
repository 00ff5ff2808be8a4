/** Values that are strings of digits rather than amounts: codes, times, headings, runways, frequencies. */

import type { NumberReading } from '../numbers/readings.ts'
import { sayCardinal, sayDigits } from '../numbers/say.ts'
import type { Token } from '../numbers/tokens.ts'
import type { DigitsSpec, FrequencySpec, HeadingSpec, Phraseology, RunwaySpec, TimeSpec, Value } from './kind.ts'
import { type Affixes, affixTable, partRun, type Reading } from './reading.ts'

const DIGITS = affixTable([[{ role: 'noun' }, ['squawk', 'squawking', 'code']]])
const TIME = affixTable([
  [{ role: 'unit' }, ['hours', 'zulu', 'utc', 'local', 'z']],
  [{ role: 'noun' }, ['time']],
])
const HEADING = affixTable([
  [{ role: 'unit' }, ['degrees', 'degree', 'magnetic']],
  [{ role: 'otherUnit' }, ['true']],
  [{ role: 'noun' }, ['heading', 'course']],
])
const RUNWAY = affixTable([
  [{ role: 'noun' }, ['runway']],
  [{ role: 'direction', direction: 'L' }, ['left', 'l']],
  [{ role: 'direction', direction: 'R' }, ['right', 'r']],
  [{ role: 'direction', direction: 'C' }, ['center', 'centre', 'c']],
])
const FREQUENCY = affixTable([[{ role: 'unit' }, ['megahertz', 'mhz']]])

type DigitKind = DigitsSpec | TimeSpec | HeadingSpec | RunwaySpec | FrequencySpec

export function digitAffixes(spec: DigitKind): Affixes {
  switch (spec.kind) {
    case 'digits':
      return DIGITS
    case 'time':
      return TIME
    case 'heading':
      return HEADING
    case 'runway':
      return RUNWAY
    case 'frequency':
      return FREQUENCY
  }
}

/** A whole thousand may be said as one even in a code: "four thousand". */
function isThousands(number: NumberReading): boolean {
  return number.style === 'scaled' && /000$/.test(number.whole)
}

function readCode(number: NumberReading, length: number): Reading[] {
  if (number.fraction !== undefined) return []
  const { whole, secondary } = number
  const standard = number.standard && (number.style !== 'scaled' || isThousands(number))
  const reading = { value: whole, digits: whole, standard, secondary }
  if (whole.length > length) return [{ ...reading, overlong: true }]
  return [whole.length < length ? { ...reading, lacks: 'digits' as const } : reading]
}

function readTime(number: NumberReading): Reading[] {
  return readCode(number, 4).map((reading) => {
    const clock = /^([01]\d|2[0-3])[0-5]\d$/.test(String(reading.value))
    const standard = number.standard && number.style !== 'scaled'
    return { ...reading, standard, implausible: !clock && String(reading.value).length === 4 }
  })
}

function readHeading(number: NumberReading, otherUnit: boolean): Reading[] {
  if (number.fraction !== undefined || number.whole.length > 3) return []
  const reading: Reading = {
    value: Number(number.whole),
    digits: number.whole,
    standard: number.standard && number.style !== 'scaled',
    secondary: number.secondary,
    ...(otherUnit ? { otherUnit } : {}),
  }
  return [number.whole.length < 3 ? { ...reading, lacks: 'digits' } : reading]
}

function readRunwayNumber(number: NumberReading, side: string): Reading[] {
  if (number.fraction !== undefined || number.whole.length > 2 || number.style === 'scaled') return []
  const value = `${number.whole.padStart(2, '0')}${side}`
  const standard = number.standard && number.whole.length === 2
  const implausible = Number(number.whole) < 1 || Number(number.whole) > 36
  return [{ value, standard, secondary: number.secondary, implausible }]
}

function readFrequency(number: NumberReading): Reading[] {
  const { whole, fraction, secondary, pointWord } = number
  if (whole.length !== 3 && fraction === undefined) return []
  if (number.thousandAfter || whole.startsWith('0')) return []
  const value = Number(`${whole}.${fraction || '0'}`)
  const standard = number.standard && (pointWord === 'decimal' || pointWord === '.')
  const reading = { value, standard, secondary }
  return [fraction ? reading : { ...reading, lacks: 'decimals' as const }]
}

export function readDigits(tokens: readonly Token[], spec: DigitKind): readonly Reading[] {
  const run = partRun(tokens, digitAffixes(spec))
  if (!run || run.signs.length > 0) return []
  const sides = new Set(run.directions)
  if (sides.size > 1) return []
  const side = run.directions[0] ?? ''
  if (spec.kind === 'runway' && run.number.length === 0) {
    return side === '' ? [] : [{ value: side, standard: true, lacks: 'digits' }]
  }
  return run.numbers.flatMap((number) => readOne(number, spec, side, run.otherUnit))
}

function readOne(number: NumberReading, spec: DigitKind, side: string, otherUnit: boolean): Reading[] {
  switch (spec.kind) {
    case 'digits':
      return readCode(number, spec.length)
    case 'time':
      return readTime(number)
    case 'heading':
      return readHeading(number, otherUnit)
    case 'runway':
      return readRunwayNumber(number, side)
    case 'frequency':
      return readFrequency(number)
  }
}

const SIDE_WORDS: Readonly<Record<string, string>> = { L: ' left', R: ' right', C: ' center' }

export function sayDigitKind(value: Value, spec: DigitKind, phraseology: Phraseology): string {
  const radio = phraseology !== 'plain'
  const text = String(value)
  switch (spec.kind) {
    case 'digits':
      return /^[1-9]000$/.test(text) && !radio ? sayCardinal(Number(text)) : sayDigits(text, radio)
    case 'time':
      return sayDigits(text, radio)
    case 'heading':
      return sayDigits(text.padStart(3, '0'), radio)
    case 'runway':
      return `${sayDigits(text, radio)}${SIDE_WORDS[text.slice(-1)] ?? ''}`
    case 'frequency': {
      const [whole = '', fraction = '0'] = showFrequency(Number(value)).split('.')
      return `${sayDigits(whole, radio)} ${radio ? 'decimal' : 'point'} ${sayDigits(fraction, radio)}`
    }
  }
}

/** 118.1 -> "118.1"; 118 -> "118.0"; the 5 kHz step is kept. */
function showFrequency(value: number): string {
  return value.toFixed(3).replace(/0{1,2}$/, '')
}

export function showDigitKind(value: Value, spec: DigitKind): string {
  switch (spec.kind) {
    case 'digits':
    case 'time':
    case 'runway':
      return String(value)
    case 'heading':
      return `${String(value).padStart(3, '0')}°`
    case 'frequency':
      return showFrequency(Number(value))
  }
}
