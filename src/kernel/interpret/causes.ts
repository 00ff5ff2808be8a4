/** Where the wrong values of a negative answer came from, as far as this run's figures show. */

import { compute } from '../figures/compute.ts'
import { neighboursOf } from '../figures/neighbours.ts'
import type { Pack } from '../pack/checklist.ts'
import { figuresFor } from '../pack/place.ts'
import { findCauses } from '../response/causes.ts'
import type { Judgement } from '../response/model.ts'
import type { RunState } from '../run/core/state.ts'

/** For the debrief: it is kept in the log and never spoken before the answer is right. */
export function withCauses(pack: Pack, state: RunState, judgement: Judgement): Judgement {
  const wrong = judgement.parts.filter((part) => part.kind === 'figure' && part.state === 'wrong')
  if (judgement.verdict !== 'negative' || wrong.length === 0) return judgement
  const declared = Object.values(pack.figures.declarations)
  const figures = figuresFor(
    pack,
    state.values,
    declared.map(({ name }) => name),
  )
  const labels = Object.fromEntries(declared.map(({ name, label }) => [name, label]))
  const set = state.inputs && compute(pack.figures, state.inputs)
  const causes = wrong.flatMap(({ name, read }) => {
    if (read === undefined) return []
    const neighbours = set ? neighboursOf(pack.figures, set, name) : []
    return findCauses({ figure: name, read, figures, labels, history: state.history, neighbours })
  })
  return causes.length > 0 ? { ...judgement, causes } : judgement
}
