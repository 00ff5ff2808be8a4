/** The pilot's edge day by day, each from the read-backs of that day alone. */

import type { Dial } from '../../kernel/run/core/events.ts'
import { type Edge, edgeOf, inOrder, isSameDial, type LengthTrial, lengthTrials } from '../../kernel/training/edge.ts'
import type { RunFacts } from '../../kernel/training/facts.ts'

/** Of blocks that were put like this, the last day first. */
export function edgesByDay(facts: readonly RunFacts[], dial: Dial): { readonly day: string; readonly edge: Edge }[] {
  const days = new Map<string, LengthTrial[]>()
  for (const run of inOrder(facts)) {
    if (!run.dial || !isSameDial(run.dial, dial)) continue
    const day = new Date(run.startedAt).toLocaleDateString('en-GB', { day: 'numeric', month: 'long', year: 'numeric' })
    days.set(day, [...(days.get(day) ?? []), ...lengthTrials(run)])
  }
  return [...days]
    .filter(([, trials]) => trials.length > 0)
    .map(([day, trials]) => ({ day, edge: edgeOf(trials) }))
    .reverse()
}
