/**
 * A value read aloud off a sheet or an instrument, without anything to compare it with: the reading is the same
 * whatever the figure is (law 2). What could be two values, or lacks a part, is none.
 */

import type { KindSpec, Value } from '../kinds/kind.ts'
import { tokensOf } from '../numbers/tokens.ts'
import { isSound } from './assign.ts'
import { bind } from './bind.ts'
import { withoutChallenge } from './challenge.ts'
import { equallyLikely } from './judge.ts'
import type { JudgeInput } from './model.ts'
import { responseFrom } from './response.ts'
import { scan } from './scan.ts'
import { scenesFor } from './scene.ts'

const NAME = 'value'
const RESPONSE = responseFrom(`<${NAME}> [set]`)
const NONE: ReadonlySet<string> = new Set()

export interface ReadingAloud extends Pick<JudgeInput, 'heard' | 'score' | 'alternatives'> {
  /** What the figure is called; any of these may be said before its value. */
  readonly names: readonly string[]
}

/** The one value that was read; undefined where there is none, or where equally likely texts do not agree on it. */
export function readOff(spec: KindSpec, { names, ...input }: ReadingAloud): Value | undefined {
  const values = [input.heard, ...equallyLikely(input)].map((text) => valueIn(spec, names, text))
  return values.every((value) => value === values[0]) ? values[0] : undefined
}

function valueIn(spec: KindSpec, names: readonly string[], text: string): Value | undefined {
  const called = names.toSorted((one, other) => other.length - one.length).map(tokensOf)
  const body = called.reduce(withoutChallenge, tokensOf(text))
  const stretches: (typeof body)[] = [[]]
  for (const token of body) {
    if (token.text === 'correction') stretches.push([])
    else stretches.push([...(stretches.pop() ?? []), token])
  }
  for (const scene of scenesFor(RESPONSE, { [NAME]: spec }, [], [])) {
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
