/**
 * What was read off a gauge. There is no value to compare it with: it is one value of its kind, understood in one way, and
 * lies where it must, or is noted as it is.
 */

import { type Gauge, kindOf, type Phraseology } from '../kinds/kind.ts'
import type { Reading } from '../kinds/reading.ts'
import type { ValueFiller } from './fill.ts'
import type { Outcome } from './outcome.ts'
import { isPlausible } from './runs.ts'

const DUST = 1e-9

export function compareReading(gauge: Gauge, { readings, negated }: ValueFiller, phraseology: Phraseology): Outcome {
  // "Not two eight": what it shows was not said.
  if (negated) return { is: 'doubtful', because: 'notUnderstood' }
  const first = readings.filter(({ secondary }) => !secondary)
  const whole = first.filter((reading) => isWhole(gauge, reading))
  const sound = whole.filter((reading) => isPlausible(reading, gauge))
  if (new Set(sound.map(({ value }) => value)).size > 1) return { is: 'doubtful', because: 'ambiguous' }
  const [read] = sound
  if (read?.otherUnit) return { is: 'wrong', because: 'unit', read: read.value }
  if (read) {
    if (!isWithin(gauge, read)) return { is: 'wrong', because: 'limit', read: read.value }
    return { is: 'right', read: read.value, form: phraseology === 'plain' || read.standard }
  }
  const lacking = first.find(({ lacks }) => lacks)
  if (whole.length === 0 && lacking?.lacks) return { is: 'lacking', lacks: lacking.lacks, read: lacking.value }
  const [beyond] = whole
  return beyond ? { is: 'implausible', read: beyond.value } : { is: 'doubtful', because: 'notUnderstood' }
}

/** "Twenty-eight" is all of 28.0. */
function isWhole(gauge: Gauge, { lacks, open, value, tail, overlong }: Reading): boolean {
  if (tail || overlong) return false
  if (lacks === undefined) return true
  return lacks === 'decimals' && !open && kindOf(gauge).zerosMayLack?.(Number(value)) === true
}

function isWithin({ read: { min = -Infinity, max = Infinity } }: Gauge, { value }: Reading): boolean {
  return typeof value !== 'number' || (value >= min - DUST && value <= max + DUST)
}
