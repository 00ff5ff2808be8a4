/**
 * A value read aloud off a sheet or an instrument, without anything to compare it with: the reading is the same
 * whatever the figure is (law 2). What could be two values, or lacks a part, is none.
 */

import type { KindSpec, Value } from '../kinds/kind.ts'
import { type Token, type Transcript, tokensOf } from '../numbers/tokens.ts'
import { askedFor } from './asked.ts'
import { isSound } from './assign.ts'
import { bind } from './bind.ts'
import { withoutChallenge } from './challenge.ts'
import { equallyLikely, type Hypotheses } from './hypotheses.ts'
import { stretchesOf } from './judge.ts'
import { responseFrom } from './response.ts'
import { scan } from './scan.ts'

const NAME = 'value'
const RESPONSE = responseFrom(`<${NAME}> [set]`)
const NONE: ReadonlySet<string> = new Set()

/** The one value that was read, any of `names` said before it or none; undefined where there is none, or where equally likely texts do not agree on it. */
export function readOff(spec: KindSpec, names: readonly string[], hypotheses: Hypotheses): Value | undefined {
  const called = names.map(tokensOf).sort((one, other) => other.length - one.length)
  const values = [hypotheses.heard, ...equallyLikely(hypotheses)].map((heard) => valueIn(spec, called, heard))
  return values.every((value) => value === values[0]) ? values[0] : undefined
}

function valueIn(spec: KindSpec, names: readonly (readonly Token[])[], { tokens }: Transcript): Value | undefined {
  const stretches = stretchesOf(names.reduce(withoutChallenge, tokens))
  for (const scene of askedFor(RESPONSE, { [NAME]: spec }).scenes) {
    const bound = bind(
      scene,
      stretches.map((stretch) => scan(scene, stretch)),
      NONE,
    )
    const sayings = [...bound.figures.values()].flat()
    if (bound.doubt || bound.unknown || bound.commanded || bound.words.has(-1) || sayings.length === 0) continue
    if (sayings.some(({ negated }) => negated)) continue
    // Each time it was said it must be a whole value, and the same one.
    const readings = sayings.map((saying) => saying.readings.filter((reading) => !reading.secondary))
    const values = new Set(readings.flat().map(({ value }) => value))
    const isWhole = readings.every((one) => one.length > 0 && one.every((reading) => isSound(reading, spec)))
    if (isWhole && values.size === 1) return [...values][0]
  }
  return undefined
}
