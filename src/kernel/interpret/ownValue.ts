/** What the pilot worked out: read without a look at the figure, then compared, then explained. */

import { figuresFor } from '../pack/place.ts'
import { isRight } from '../response/compare.ts'
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
  const value = readOff(spec, names, said)
  const own = figuresFor(pack, state.values, [figure])[figure]
  if (!own) return undefined
  if (value === undefined) {
    const lacks = lackOf(spec, names, said)
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
