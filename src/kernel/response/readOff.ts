/**
 * A value read aloud off a sheet or an instrument, without anything to compare it with: the reading is the same
 * whatever the figure is (law 2). What could be two values, or is not a whole one, is none.
 */

import type { KindSpec, Value } from '../kinds/kind.ts'
import type { Lack, Reading } from '../kinds/reading.ts'
import { type Transcript, tokensOf } from '../numbers/tokens.ts'
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
  return agreed(hypotheses, (heard) => {
    // Each time it was said it must be a whole value, and the same one.
    const isWhole = (said: Said) => said.every((one) => one.length > 0 && one.every((it) => isSound(it, spec)))
    const valuesOf = (said: Said) => [...new Set(said.flat().map(({ value }) => value))]
    return readingsIn(spec, names, heard)
      .filter(isWhole)
      .map(valuesOf)
      .find((values) => values.length === 1)?.[0]
  })
}

/** What the value that was read is short of, in every reading: a trim of its direction. Undefined where of nothing. */
export function lackOf(spec: KindSpec, names: readonly string[], hypotheses: Hypotheses): Lack | undefined {
  return agreed(hypotheses, (heard) => {
    const lacks = new Set(readingsIn(spec, names, heard).flatMap((said) => said.flat().map((one) => one.lacks)))
    return lacks.size === 1 ? [...lacks][0] : undefined
  })
}

/** What equally likely texts agree on. */
function agreed<Found>(hypotheses: Hypotheses, find: (heard: Transcript) => Found | undefined): Found | undefined {
  const [first, ...others] = [hypotheses.heard, ...equallyLikely(hypotheses)].map(find)
  return others.every((one) => one === first) ? first : undefined
}

/** Of each time that a value was said, what it may be. */
type Said = readonly (readonly Reading[])[]

/** As each path of an answer takes the words; none where something else was said too. */
function readingsIn(spec: KindSpec, names: readonly string[], { tokens }: Transcript): Said[] {
  const called = names.map(tokensOf).sort((one, other) => other.length - one.length)
  const attempts = attemptsIn(called.reduce(withoutChallenge, tokens))
  return askedFor(RESPONSE, { [NAME]: spec }).frames.flatMap((frame): Said[] => {
    const filled = fillSlots(frame, attempts, NONE)
    const fillers = [...filled.figures.values()].flat()
    if (filled.doubt || filled.unknown || filled.commanded || filled.words.has(-1) || fillers.length === 0) return []
    if (fillers.some(({ negated }) => negated)) return []
    return [fillers.map((filler) => filler.readings.filter((reading) => !reading.secondary))]
  })
}
