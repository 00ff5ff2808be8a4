/** What the pilot worked out: read without a look at the figure, then compared, then explained. */

import { figuresFor } from '../pack/place.ts'
import { isRight } from '../response/compare.ts'
import { readOff } from '../response/readOff.ts'
import type { EventBody } from '../run/core/events.ts'
import { causesOf } from './causes.ts'
import type { Utterance } from './utterance.ts'

/** Undefined where it is not one value. */
export function ownValue({ pack, state, said, evidence }: Utterance): EventBody | undefined {
  const { question } = state
  const declared = question?.about === 'ownValue' && pack.figures.declarations[question.figure]
  if (!declared) return undefined
  const { name: figure, label, alsoCalled, spec } = declared
  const value = readOff(spec, [label, ...alsoCalled, 'my', 'mine'], said)
  const own = figuresFor(pack, state.values, [figure])[figure]
  if (value === undefined || !own) return undefined
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
