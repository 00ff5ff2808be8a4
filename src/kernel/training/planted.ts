/** What was planted in a run for the pilot to notice, and whether it was: the trap of a drawn departure, a controller's slip, late catch. */

import { deal } from '../figures/deal.ts'
import type { Pack } from '../pack/checklist.ts'
import { readBackOf } from '../pack/rests.ts'
import { catchesIn } from '../run/debrief/debriefCatches.ts'
import type { Moment } from '../run/debrief/tally.ts'
import type { Planted } from './facts.ts'

/** `seen`: what counts in this run. `dealt`: the number of a departure that was drawn, where the run is one from its beginning. */
export function plantedIn(pack: Pack, seen: readonly Moment[], dealt: number | undefined): Planted[] {
  const [first, last] = [seen[0], seen.at(-1)]
  if (!first || !last) return []
  const { before } = first
  const { after } = last
  const slips = Object.entries(after.turns).flatMap(([id, { slip }]): Planted[] =>
    slip === undefined || before.turns[id]?.slip === slip ? [] : [{ kind: 'slip', caught: slip === 'noticed' }],
  )
  const isOver = after.status === 'ended' || after.floor.at === 'end'
  const catches = catchesIn(pack, after, isOver)
    .filter(({ changedAt }) => changedAt >= before.t)
    .map(({ by }): Planted => ({ kind: 'lateCatch', caught: by === 'pilot' }))
  return [...(dealt === undefined ? [] : trapIn(pack, seen, dealt)), ...slips, ...catches]
}

/**
 * Caught where the stale sheet was not chosen and, once the final figures were in, every item that says a figure of the trap
 * was right at its first try. Where none of them was answered on final figures, nobody can say, and nothing is counted.
 */
function trapIn(pack: Pack, seen: readonly Moment[], dealt: number): Planted[] {
  const trap = deal(pack.figures, readBackOf(pack), dealt)?.trap
  if (!trap) return []
  const { kind, figures } = trap
  const rule = pack.figures.basis?.deal?.traps.find((one) => one.kind === kind)
  const judged = new Map<string, boolean>()
  for (const { event, before } of seen) {
    if (event.type !== 'answered' || before.figureStatus === 'preliminary' || judged.has(event.item)) continue
    const { verdict } = event.judgement
    if (verdict === 'sayAgain' || verdict === 'command' || event.revision !== before.revision) continue
    if (Object.keys(event.expected).some((name) => figures.includes(name)))
      judged.set(event.item, verdict === 'correct')
  }
  if (judged.size === 0) return []
  const settled = rule && seen.at(-1)?.after.inputs?.settled?.[rule.figure]
  const isMisled = settled !== undefined && settled.use === rule?.source
  return [{ kind, caught: !isMisled && [...judged.values()].every((right) => right) }]
}
