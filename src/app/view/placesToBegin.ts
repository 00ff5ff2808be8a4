/** Where a run may be begun, by phase, as the pack has them for these figures and in this situation. */

import type { Inputs } from '../../kernel/figures/model.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { agenda } from '../../kernel/pack/place.ts'

export interface PhaseToBegin {
  readonly name: string
  readonly activities: readonly { readonly id: string; readonly name: string }[]
}

/** `hasStations`: the voices outside the crew have their part; without them there is nobody to talk to. */
export function placesToBegin(pack: Pack, draft: Inputs, hasStations: boolean): PhaseToBegin[] {
  const initial = Object.fromEntries(pack.situations.map((one) => [one.name, one.initial]))
  const places = agenda(pack, { situation: { ...initial, ...draft.situation }, values: {} })
  return pack.phases
    .map(({ name }, number) => ({
      name,
      activities: places
        .filter(({ phase }) => phase === number)
        .map(({ activity }) => activity)
        .filter((one) => !(one.type === 'flow' && one.silent) && !(one.type === 'list' && one.anytime))
        .filter(({ type }) => hasStations || (type !== 'exchange' && type !== 'briefing'))
        .map(({ id, name }) => ({ id, name })),
    }))
    .filter(({ activities }) => activities.length > 0)
}
