/** What the pilot worked out: read without a look at the figure, then compared, then explained. */

import type { KindSpec } from '../kinds/kind.ts'
import type { Lack } from '../kinds/reading.ts'
import type { Scale } from '../kinds/value.ts'
import { figuresFor } from '../pack/place.ts'
import { completing } from '../response/begun.ts'
import { isRight } from '../response/compare.ts'
import type { Hypotheses } from '../response/hypotheses.ts'
import { lackOf, readOff } from '../response/readOff.ts'
import type { EventBody } from '../run/core/events.ts'
import { causesOf } from './causes.ts'
import type { Utterance } from './utterance.ts'

/** Undefined where it is neither one value nor one that is short of something. */
export function ownValue({ pack, state, said, evidence }: Utterance): EventBody | undefined {
  const { question } = state
  const declared = question?.about === 'ownValue' && pack.figures.declarations[question.figure]
  if (!declared) return undefined
  const { name: figure, label, alsoCalled, spec } = declared
  const names = [label, ...alsoCalled, 'my', 'mine']
  const lacks = lackOf(spec, names, said)
  const whole = question.begun !== undefined && lacks && inTwoBreaths(question.begun, said, lacks)
  const { min: _, max: __, ...endless } = spec as Partial<Scale>
  const value =
    readOff(spec, names, said) ??
    (whole ? readOff(spec, names, whole) : undefined) ??
    // Beyond the scale it is a value all the same, and another one.
    readOff({ ...endless } as KindSpec, names, said)
  const own = figuresFor(pack, state.values, [figure])[figure]
  if (!own) return undefined
  if (value === undefined) {
    return lacks && { type: 'ownValueBegun', figure, lacks, evidence }
  }
  const right = isRight(own, value)
  return {
    type: 'ownValueSaid',
    figure,
    value,
    isRight: right,
    causes: right ? [] : causesOf(pack, state, figure, value),
    evidence,
  }
}

/** Undefined where any of the likely texts is no rest of what was said before. */
function inTwoBreaths(begun: string, { heard, alternatives }: Hypotheses, lacks: Lack): Hypotheses | undefined {
  const whole = completing(begun, heard, lacks)
  const others = alternatives?.map((one) => ({ ...one, ...completing(begun, one, lacks) }))
  return whole && { heard: whole, ...(others && { alternatives: others }) }
}
