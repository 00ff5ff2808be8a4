/**
 * A value read aloud off a sheet or an instrument, without anything to compare it with: the reading is the same
 * whatever the figure is (law 2). What could be two values, or is not a whole one, is none.
 */

import type { KindSpec, Value } from '../kinds/kind.ts'
import { type Token, type Transcript, tokensOf } from '../numbers/tokens.ts'
import { askedFor } from './asked.ts'
import { withoutChallenge } from './challenge.ts'
import { fillSlots } from './fill.ts'
import { equallyLikely, type Hypotheses } from './hypotheses.ts'
import { responseFrom } from './response.ts'
import { isSound } from './runs.ts'
import { attemptsIn } from './scan.ts'

const NAME = 'value'
const RESPONSE = responseFrom(`<${NAME}> [set]`)
const NONE: ReadonlySet<string> = new Set()

/**
 * The one value that was read, with any of `names` before it or none. Undefined where there is none, or where equally
 * likely texts do not agree on it.
 */
export function readOff(spec: KindSpec, names: readonly string[], hypotheses: Hypotheses): Value | undefined {
  const called = names.map(tokensOf).sort((one, other) => other.length - one.length)
  const values = [hypotheses.heard, ...equallyLikely(hypotheses)].map((heard) => valueIn(spec, called, heard))
  return values.every((value) => value === values[0]) ? values[0] : undefined
}

function valueIn(spec: KindSpec, names: readonly (readonly Token[])[], { tokens }: Transcript): Value | undefined {
  const attempts = attemptsIn(names.reduce(withoutChallenge, tokens))
  for (const frame of askedFor(RESPONSE, { [NAME]: spec }).frames) {
    const filled = fillSlots(frame, attempts, NONE)
    const fillers = [...filled.figures.values()].flat()
    if (filled.doubt || filled.unknown || filled.commanded || filled.words.has(-1) || fillers.length === 0) continue
    if (fillers.some(({ negated }) => negated)) continue
    // Each time it was said it must be a whole value, and the same one.
    const readings = fillers.map((filler) => filler.readings.filter((reading) => !reading.secondary))
    const values = new Set(readings.flat().map(({ value }) => value))
    const isWhole = readings.every((one) => one.length > 0 && one.every((reading) => isSound(reading, spec)))
    if (isWhole && values.size === 1) return [...values][0]
  }
  return undefined
}
