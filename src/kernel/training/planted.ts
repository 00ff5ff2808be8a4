/** What was planted in a run for the pilot to notice, and whether it was: the trap of a drawn departure, a controller's slip, late catch. */

import { deal } from '../figures/deal.ts'
import type { Pack } from '../pack/checklist.ts'
import { readBackOf } from '../pack/rests.ts'
import { catchesIn } from '../run/debrief/debriefCatches.ts'
import { trapIn } from '../run/debrief/debriefTrap.ts'
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
  return [...(dealt === undefined ? [] : trapOf(pack, seen, dealt)), ...slips, ...catches]
}

/** Where nothing of it was answered on final figures, nobody can say, and nothing is counted. */
function trapOf(pack: Pack, seen: readonly Moment[], dealt: number): Planted[] {
  const trap = deal(pack.figures, readBackOf(pack), dealt)?.trap
  const caught = trap && trapIn(pack, seen, trap).caught
  return trap && caught !== undefined ? [{ kind: trap.kind, caught }] : []
}
