/** Where the wrong values of a negative answer came from, as far as this run's figures show. */

import { compute } from '../figures/compute.ts'
import { neighboursOf } from '../figures/neighbours.ts'
import type { Value } from '../kinds/kind.ts'
import type { Pack } from '../pack/checklist.ts'
import { figuresFor } from '../pack/place.ts'
import { findCauses } from '../response/causes.ts'
import type { Cause, Judgement } from '../response/model.ts'
import type { RunState } from '../run/core/state.ts'

/** For the debrief: it is kept in the log and never spoken before the answer is right. */
export function withCauses(pack: Pack, state: RunState, judgement: Judgement): Judgement {
  const wrong = judgement.parts.filter((part) => part.kind === 'figure' && part.state === 'wrong')
  if (judgement.verdict !== 'negative' || wrong.length === 0) return judgement
  const causes = wrong.flatMap(({ name, read }) => (read === undefined ? [] : causesOf(pack, state, name, read)))
  return causes.length > 0 ? { ...judgement, causes } : judgement
}

/** What a wrong value of a figure fits, besides being wrong. */
export function causesOf(pack: Pack, state: RunState, figure: string, read: Value): readonly Cause[] {
  const declared = Object.values(pack.figures.declarations)
  const figures = figuresFor(
    pack,
    state.values,
    declared.map(({ name }) => name),
  )
  const labels = Object.fromEntries(declared.map(({ name, label }) => [name, label]))
  const neighbours = state.inputs ? neighboursOf(pack.figures, compute(pack.figures, state.inputs), figure) : []
  return findCauses({ figure, read, figures, labels, history: state.history, neighbours })
}
